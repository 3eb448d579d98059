// Pictures of what joins the two sides of a block and of parts, after IEC
// 60617: a fuse link, a disconnecting blade, a connection to protective earth.
const line = "M0 12h48";

const blocks: Record<string, string> = {
  // Two connections on one bar.
  terminal: `${line}M10 12a4 4 0 1 0 8 0 4 4 0 0 0-8 0M30 12a4 4 0 1 0 8 0 4 4 0 0 0-8 0`,
  // 02-15-03, protective earth, on the bar.
  "terminal-earth": `${line}M24 12v6M15 18h18M18.5 21h11M22 24h4`,
  // 07-21-01, a fuse.
  fuse: `${line}M12 6h24v12H12z`,
  // 05-03-01, a diode; 05-03-02, one that emits light, between two levels.
  diode: "M0 12h48M16 4v16L32 12zM32 4v16",
  "terminal-led": `${line}M17 5v14L29 12zM29 5v14M32 6l5-4M35 9l5-4`,
  // 03-03-01 drawn as a blade that lifts from one side.
  blade: "M0 12h14M34 12h14M14 12 33 5M34 8v8",
};

/** The cut of a level decides first: a plain lower level has none. Of several levels the lowest is on earth. */
export function Symbol({ name, cut, level }: { name: string; cut: string; level: number }) {
  const earth = name.endsWith("earth") && level <= 1;
  const plain = name === "terminal-led" && level > 1 ? name : "terminal";
  const path = blocks[cut] ?? blocks[earth ? "terminal-earth" : plain];
  return (
    <svg class="symbol" viewBox="0 0 48 26" aria-hidden="true" focusable="false">
      <path d={path} />
    </svg>
  );
}
