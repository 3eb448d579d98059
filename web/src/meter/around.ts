// The things a probe touches or nearly touches: the block or part, and the
// wires that land on it.
import type { Opened, WireEnd } from "../core/api.ts";
import { thingAt } from "../panel/search.ts";

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

/** Names of blocks, parts and wires around the points, each once. */
export function thingsAround(opened: Opened, points: readonly string[]): string[] {
  const names = new Set<string>();
  for (const point of points) {
    const thing = point === "" ? null : thingAt(opened, point);
    if (thing?.kind === "block") names.add(thing.block.ref);
    if (thing?.kind === "part") names.add(thing.part.ref);
    if (thing) for (const { no } of wiresAt(opened, point)) names.add(no);
    const wire = opened.wires.find(({ no }) => point === no || point.startsWith(`${no}@`));
    if (wire) names.add(wire.no);
  }
  return [...names];
}
