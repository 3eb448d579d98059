// Finding a thing by what is written on it: a tag, a designation, a terminal, a
// wire number, a label.
import type { BlockView, DeviceDef, LevelView, Opened, PartView, WireView } from "../core/api.ts";
import { lands } from "./point.ts";

export type Thing =
  | { kind: "block"; block: BlockView; strip: string }
  | { kind: "part"; part: PartView }
  | { kind: "wire"; wire: WireView };

interface Found {
  thing: Thing;
  /** Lower is nearer to what was typed. */
  rank: number;
}

/** Tells things apart where several are shown. */
export const keyOf = (thing: Thing): string =>
  thing.kind === "block" ? thing.block.ref : thing.kind === "part" ? thing.part.ref : thing.wire.no;

const LIMIT = 40;

/** The nearest things first; within a rank in the order of the drawing. */
export function search(opened: Opened, typed: string): Thing[] {
  const wanted = plain(typed);
  if (wanted === "") return [];
  const found: Found[] = [];
  const consider = (thing: Thing, names: string[], text: string[]): void => {
    const rank = Math.min(
      ...names.map((name) => rankOf(plain(name), wanted)),
      ...text.map((t) => 3 + rankOf(plain(t), wanted)),
    );
    if (rank < 9) found.push({ thing, rank });
  };
  for (const part of opened.parts) {
    consider(
      { kind: "part", part },
      [part.tag, part.ref, ...part.terminals.map((t) => t.point)],
      [part.label, part.kind_name],
    );
  }
  for (const strip of opened.strips) {
    for (const block of strip.blocks) {
      consider({ kind: "block", block, strip: strip.ref }, [block.ref], [block.label, strip.label]);
    }
  }
  for (const wire of opened.wires) {
    consider({ kind: "wire", wire }, [wire.no], [wire.cable, wire.from, wire.to]);
  }
  return found
    .sort((a, b) => a.rank - b.rank)
    .slice(0, LIMIT)
    .map(({ thing }) => thing);
}

/** 0 the whole name, 1 its beginning, 2 somewhere in it, 9 not at all. */
function rankOf(name: string, wanted: string): number {
  if (name === "") return 9;
  const at = name.indexOf(wanted);
  return at < 0 ? 9 : name === wanted ? 0 : at === 0 ? 1 : 2;
}

/** Case, blanks, dashes and the leading dash of a designation do not count. */
function plain(text: string): string {
  return text.toLowerCase().replace(/[\s-]/g, "");
}

/** The devices on which the typed text is written, in the order of the drawing. */
export function filtered(devices: readonly DeviceDef[], typed: string): readonly DeviceDef[] {
  const wanted = plain(typed);
  return devices.filter(({ ref, tag, label, kind_name }) =>
    [ref, tag, label, kind_name].some((text) => plain(text).includes(wanted)),
  );
}

/** The thing a point belongs to. */
export function thingAt(opened: Opened, point: string): Thing | null {
  for (const strip of opened.strips) {
    for (const block of strip.blocks) {
      if (block.levels.some((level) => reaches(level, point))) return { kind: "block", block, strip: strip.ref };
    }
  }
  const part = opened.parts.find(({ terminals }) => terminals.some((terminal) => terminal.point === point));
  return part ? { kind: "part", part } : null;
}

const reaches = ({ in: inside, out }: LevelView, point: string): boolean =>
  point === inside || point === out || (inside === out && lands(point, inside));
