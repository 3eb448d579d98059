// The terminals a mark may name, and the way back from a name to its thing.
import type { Opened } from "../core/api.ts";
import { search, thingAt, type Thing } from "../panel/search.ts";

const LIMIT = 30;

/** Blocks and the terminals of parts on which the typed text is written. */
export function terminalsFor(opened: Opened, typed: string): string[] {
  const names = search(opened, typed).flatMap((thing) =>
    thing.kind === "block" ? [thing.block.ref] : thing.kind === "part" ? thing.part.terminals.map((t) => t.point) : [],
  );
  return [...new Set(names)].slice(0, LIMIT);
}

/** The thing that carries the terminal; null if the drawing has no such terminal any more. */
export function thingNamed(opened: Opened, terminal: string): Thing | null {
  for (const strip of opened.strips) {
    const block = strip.blocks.find(({ ref }) => ref === terminal);
    if (block) return { kind: "block", block, strip: strip.ref };
  }
  return thingAt(opened, terminal);
}

/** The pieces of metal of a thing that wires land on. */
export function terminalsOf(thing: Thing): string[] {
  switch (thing.kind) {
    case "block":
      return [...new Set(thing.block.levels.flatMap((level) => [level.in, level.out]))];
    case "part":
      return thing.part.terminals.map(({ point }) => point);
    case "wire":
      return [thing.wire.from, thing.wire.to];
  }
}

/** Every name a mark may have for something on this thing. */
export function pointsOf(thing: Thing): string[] {
  switch (thing.kind) {
    case "block":
      return [thing.block.ref];
    case "part":
      return thing.part.terminals.map(({ point }) => point);
    case "wire":
      return [];
  }
}
