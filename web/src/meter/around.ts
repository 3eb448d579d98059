// The things a probe touches or nearly touches: the block or part, and the
// wires that land on it.
import type { Opened } from "../core/api.ts";
import { wiresAt } from "../panel/ends.ts";
import { keyOf, thingAt } from "../panel/search.ts";

/** Names of blocks, parts and wires around the points, each once. */
export function thingsAround(opened: Opened, points: readonly string[]): string[] {
  const names = new Set<string>();
  for (const point of points) {
    const thing = point === "" ? null : thingAt(opened, point);
    if (thing) names.add(keyOf(thing));
    for (const { no } of wiresAt(opened, point)) names.add(no);
    const wire = opened.wires.find(({ no }) => point === no || point.startsWith(`${no}@`));
    if (wire) names.add(wire.no);
  }
  return [...names];
}
