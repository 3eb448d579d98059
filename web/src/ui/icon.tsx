// The page's own signs, drawn in one weight so that they read through gloves
// of scratched glass. A sign never stands alone: a word or a label is beside it.

const paths = {
  back: "M15 4 7 12l8 8",
  mark: "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18M12 3v18M12 3a9 9 0 0 0 0 18z",
  sun: "M12 8a4 4 0 1 0 0 8 4 4 0 0 0 0-8M12 1.5v3M12 19.5v3M1.5 12h3M19.5 12h3M4.6 4.6l2 2M17.4 17.4l2 2M4.6 19.4l2-2M17.4 6.6l2-2",
  moon: "M20 14.5A8.5 8.5 0 0 1 9.5 4 8.5 8.5 0 1 0 20 14.5z",
  dead: "M5 5l14 14M19 5 5 19",
  works: "M4 13l5 5L20 6",
  undo: "M8 5 3 10l5 5M3.5 10H15a5.5 5.5 0 0 1 0 11h-4",
  caution: "M12 3 2 21h20zM12 10v5M12 17.6v.6",
  search: "M10 4a6 6 0 1 0 0 12 6 6 0 0 0 0-12M14.5 14.5 21 21",
  add: "M12 4v16M4 12h16",
  close: "M5 5l14 14M19 5 5 19",
  next: "M9 4l8 8-8 8",
  list: "M8 6h13M8 12h13M8 18h13M3 6h1M3 12h1M3 18h1",
  eye: "M2 12c3-5 6.5-7.5 10-7.5S19 7 22 12c-3 5-6.5 7.5-10 7.5S5 17 2 12M12 9a3 3 0 1 0 0 6 3 3 0 0 0 0-6",
  steps: "M4 5l1.5-1v5M3.5 14.5h3.5l-3.5 5H7M11 6.5h10M11 12h10M11 17.5h10",
  strip: "M4 3h16v5H4zM4 9.5h16v5H4zM4 16h16v5H4zM12 3v18",
  keypad: "M5 5h2M11 5h2M17 5h2M5 11h2M11 11h2M17 11h2M5 17h2M11 17h2M17 17h2",
  weak: "M3 12c2-5 4-5 6 0s4 5 6 0 4-5 6 0",
  wrong: "M5 9h14M5 15h14M16 4 8 20",
  held: "M12 3v12M7 10l5 5 5-5M4 20h16",
  bolt: "M13 2 5 14h6l-1 8 9-13h-6z",
  dial: "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18M12 12l5-5M12 3v2M3 12h2M19 12h2",
  swap: "M4 8h14M14 4l4 4-4 4M20 16H6M10 12l-4 4 4 4",
  lock: "M6 11h12v10H6zM8.5 11V7.5a3.5 3.5 0 0 1 7 0V11M12 15v2.5",
  jumper: "M4 18a8 8 0 0 1 16 0M4 15v6M20 15v6",
  open: "M2 16h5M17 16h5M7 16 17 8",
  camera: "M3 7h4l2-3h6l2 3h4v12H3zM12 9.5a3.5 3.5 0 1 0 0 7 3.5 3.5 0 0 0 0-7",
  picture: "M3 4h18v16H3zM3 17l6-6 5 5 3-3 4 4M16 8v.6",
  pencil: "M4 20l1-5L16 4l4 4L9 19zM13.5 6.5l4 4",
  wire: "M3 6h4a4 4 0 0 1 4 4v4a4 4 0 0 0 4 4h6M3 3v6M21 15v6",
  part: "M5 6h14v12H5zM9 3v3M15 3v3M9 18v3M15 18v3",
  note: "M5 3h14v18H5zM8.5 8h7M8.5 12h7M8.5 16h4",
  send: "M4 12v8h16v-8M12 15V3M7 8l5-5 5 5",
  link: "M10 13.5a4 4 0 0 0 6 .5l3-3a4 4 0 0 0-6-6l-1 1M14 10.5a4 4 0 0 0-6-.5l-3 3a4 4 0 0 0 6 6l1-1",
  scan: "M3 8V3h5M16 3h5v5M21 16v5h-5M8 21H3v-5M7 12h10",
  play: "M7 4l12 8-12 8z",
  pause: "M8 5v14M16 5v14",
  erase: "M8 5h13v14H8l-6-7zM12 9.5l5 5M17 9.5l-5 5",
  bin: "M4 7h16M9 7V4h6v3M6 7l1 13h10l1-13M10 11v5M14 11v5",
} as const;

export type IconName = keyof typeof paths;

export function Icon({ name }: { name: IconName }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={paths[name]} />
    </svg>
  );
}
