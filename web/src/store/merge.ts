// How what a file brings meets what is on this phone. Nothing is overwritten:
// what is alike is left alone, what is longer is gone on with, and what differs
// is kept beside the other under a new id.
import type { SavedPanel, SavedStep, SavedVersion } from "./schema.ts";

/** Whether two records say the same; the order of their fields does not count. */
export function alike(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  const [left, right] = [Object.entries(a), Object.entries(b)];
  return (
    Array.isArray(a) === Array.isArray(b) &&
    left.length === right.length &&
    left.every(([name, value]) => Object.hasOwn(b, name) && alike(value, (b as Record<string, unknown>)[name]))
  );
}

interface Chain {
  panel: SavedPanel;
  versions: readonly SavedVersion[];
}

/** Whether the other's drawing, and every one before it, is among ours. */
export function panelHas(ours: Chain, theirs: Chain): boolean {
  if (theirs.panel.version > ours.panel.version) return false;
  const mine = drawings(ours);
  const its = drawings(theirs);
  const head = mine.get(theirs.panel.version);
  return head !== undefined && [...its].every(([version, drawing]) => alike(mine.get(version) ?? drawing, drawing));
}

function drawings({ panel, versions }: Chain): Map<number, { title: string; text: string }> {
  return new Map([...versions, panel].map(({ version, title, text }) => [version, { title, text }]));
}

/** The steps that ours lack, where one list goes on from the other; null where they part. */
export function stepsToAdd(ours: readonly SavedStep[], theirs: readonly SavedStep[]): SavedStep[] | null {
  const common = Math.min(ours.length, theirs.length);
  for (let i = 0; i < common; i++) if (!alike(ours[i], theirs[i])) return null;
  return theirs.slice(common);
}

/** A short name for what a record says: FNV-1a over its JSON, twice 32 bits. Not for secrets. */
export function digest(value: unknown): string {
  const text = JSON.stringify(value);
  const hash = (start: number): string => {
    let h = start;
    for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
    return (h >>> 0).toString(16).padStart(8, "0");
  };
  return hash(0x811c9dc5) + hash(0x2f0b4c47);
}
