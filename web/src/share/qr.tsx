// One QR code, drawn so that every module is a whole number of the screen's own
// dots. Black on white in every theme: many readers know no other.
import { useEffect, useRef, useState } from "preact/hooks";
import { modulesOf } from "./modules.ts";

interface Props {
  text: string;
  version: number;
  label: string;
}

export function QR({ text, version, label }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const room = useRoom(box);
  useEffect(() => {
    if (!canvas.current || room === 0) return;
    const modules = modulesOf(text, version);
    const dots = Math.max(1, Math.floor((room * devicePixelRatio) / modules.length));
    draw(canvas.current, modules, dots);
    canvas.current.dataset["drawn"] = label;
  }, [text, version, room, label]);
  return (
    <div ref={box} class="qr">
      <canvas ref={canvas} role="img" aria-label={label} />
    </div>
  );
}

/** The width there is, and never more than most of the screen's height. */
function useRoom(box: { current: HTMLElement | null }): number {
  const [room, setRoom] = useState(0);
  useEffect(() => {
    const measure = (): void => setRoom(Math.min(box.current?.clientWidth ?? 0, innerHeight * 0.8));
    measure();
    const watch = new ResizeObserver(measure);
    if (box.current) watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  return room;
}

function draw(canvas: HTMLCanvasElement, modules: boolean[][], dots: number): void {
  const size = modules.length * dots;
  canvas.width = canvas.height = size;
  canvas.style.width = canvas.style.height = `${size / devicePixelRatio}px`;
  const pen = canvas.getContext("2d");
  if (!pen) return;
  pen.fillStyle = "#ffffff";
  pen.fillRect(0, 0, size, size);
  pen.fillStyle = "#000000";
  modules.forEach((row, y) => row.forEach((black, x) => black && pen.fillRect(x * dots, y * dots, dots, dots)));
}
