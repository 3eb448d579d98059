// The wires at a point.
import type { Opened, WireEnd } from "../core/api.ts";
import { lands } from "./point.ts";
import { thingAt } from "./search.ts";

/** Wires that end on a point, from both sides of a piece of metal. */
export function wiresAt(opened: Opened, point: string): WireEnd[] {
  const thing = thingAt(opened, point);
  if (thing?.kind === "part") return thing.part.terminals.find((terminal) => terminal.point === point)?.wires ?? [];
  if (thing?.kind !== "block") return [];
  return thing.block.levels.flatMap(({ in: inside, out, in_wires, out_wires }) => [
    ...(inside === point ? in_wires : []),
    ...(out === point ? out_wires : []),
  ]);
}

/** The end of a wire that lies on a point, as the core names it: "W12@X1:4/out". */
export function endAt(opened: Opened, no: string, point: string): string {
  const wire = opened.wires.find((one) => one.no === no);
  return `${no}@${[wire?.from, wire?.to].find((end) => end !== undefined && lands(end, point)) ?? point}`;
}
