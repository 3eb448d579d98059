// One step of a job, as it is kept. Undoing is a step too: nothing is ever
// taken away, so a job can be read later as it happened.
import type { Look, Observations, Reading } from "../core/api.ts";
import { names, nothingClosed, readClosing, takeClosing, type Closed, type Closing } from "./closing.ts";

/** What a person says about a device without a meter; "unsaid" takes it back. */
export type Sight = "dead" | "works" | "unsaid";

export type Step =
  | { kind: "saw"; ref: string; sight: Sight }
  | ({ kind: "reading"; reading: Reading } & Prompted)
  /** What was seen, with the words it was offered in. */
  | ({ kind: "look"; look: Look; shown: string } & Prompted)
  /** The state the plant is in: "normal; press S2". */
  | { kind: "condition"; at: string }
  /** Where, what was done, and what was at fault, by canonical name and in words. */
  | { kind: "repaired"; place: string; repair: string; faults?: string[]; names?: string[] }
  /** The job is to make these dead before hands go to them. */
  | { kind: "isolate"; refs: string[] }
  /** One line of a checklist, done or not done after all. */
  | { kind: "tick"; line: string; done: boolean }
  /** Something put in or taken off for the time of the job, and back again. */
  | { kind: "temporary"; change: Temporary; where: string; back: boolean }
  | Closing
  | { kind: "undo" };

/** What the prompt said beforehand: what a sound panel shows, and why it was asked. */
interface Prompted {
  expected?: string;
  why?: string;
}

export type Temporary = "jumper" | "lifted" | "lever" | "forced" | "removed";

export type Standing = Exclude<Step, { kind: "undo" }>;

export const temporaries: readonly Temporary[] = ["jumper", "lifted", "lever", "forced", "removed"];
const sights: readonly Sight[] = ["dead", "works", "unsaid"];

/** Reads a step from storage or a file; null for what this page cannot know. */
export function readStep(value: unknown): Step | null {
  const field = reader(value);
  switch (field("kind")) {
    case "saw": {
      const ref = field("ref");
      const sight = sights.find((known) => known === field("sight"));
      return ref && sight ? { kind: "saw", ref, sight } : null;
    }
    case "reading": {
      const reading = readReading((value as { reading?: unknown }).reading);
      return reading && { kind: "reading", reading, ...readPrompted(field) };
    }
    case "look": {
      const look = readLook((value as { look?: unknown }).look);
      return look && { kind: "look", look, shown: field("shown") ?? look.state, ...readPrompted(field) };
    }
    case "condition": {
      const at = field("at");
      return at ? { kind: "condition", at } : null;
    }
    case "repaired": {
      const place = field("place");
      const repair = field("repair");
      if (!place || !repair) return null;
      const [faults, words] = [listed(value, "faults"), listed(value, "names")];
      return { kind: "repaired", place, repair, ...(faults.length > 0 && { faults }), ...(words.length > 0 && { names: words }) };
    }
    case "isolate": {
      const refs = listed(value, "refs");
      return refs.length > 0 ? { kind: "isolate", refs } : null;
    }
    case "tick": {
      const line = field("line");
      return line ? { kind: "tick", line, done: (value as { done?: unknown }).done === true } : null;
    }
    case "temporary": {
      const change = temporaries.find((known) => known === field("change"));
      const where = field("where");
      return change && where
        ? { kind: "temporary", change, where, back: (value as { back?: unknown }).back === true }
        : null;
    }
    case "undo":
      return { kind: "undo" };
    default:
      return (typeof value === "object" && value && readClosing(value)) || null;
  }
}

/** Older steps were kept without it. */
function readPrompted(field: (name: string) => string | null): Prompted {
  const [expected, why] = [field("expected"), field("why")];
  return { ...(expected && { expected }), ...(why && { why }) };
}

const listed = (value: unknown, name: string): string[] => names((value as Record<string, unknown>)[name]);

function readReading(value: unknown): Reading | null {
  const field = reader(value);
  const [mode, red, black, shown, at] = ["mode", "red", "black", "shown", "at"].map(field);
  const figure = (value as { value?: unknown } | null)?.value;
  const number = typeof figure === "number" && Number.isFinite(figure) ? figure : null;
  if (!mode || !red || !black || (number === null && !shown)) return null;
  return { mode, red, black, value: number, ...(shown && { shown }), ...(at && { at }) };
}

function readLook(value: unknown): Look | null {
  const field = reader(value);
  const [ref, state, at] = ["ref", "state", "at"].map(field);
  return ref && state ? { ref, state, ...(at && { at }) } : null;
}

function reader(value: unknown): (name: string) => string | null {
  return (name) => {
    if (typeof value !== "object" || value === null) return null;
    const found = (value as Record<string, unknown>)[name];
    return typeof found === "string" && found !== "" ? found : null;
  };
}

/** The steps that stand: each undo takes back the last one before it. */
export function standing(steps: readonly Step[]): Standing[] {
  return standingOf(steps, (step) => step) as Standing[];
}

/** The same of entries that hold a step each. */
export function standingOf<T>(entries: readonly T[], stepIn: (entry: T) => Step): T[] {
  const out: T[] = [];
  for (const entry of entries) {
    if (stepIn(entry).kind === "undo") out.pop();
    else out.push(entry);
  }
  return out;
}

/** What the standing steps come to, in the form the core asks for. */
export interface Account extends Closed {
  at: string;
  sights: Map<string, Sight>;
  readings: Reading[];
  looks: Look[];
  repaired: { place: string; repair: string; faults: string[]; names: string[] } | null;
  /** What is to be made dead; empty in a search. */
  isolate: string[];
  /** Lines of the checklist that are done. */
  ticked: Set<string>;
  /** What is not yet back as it was. */
  temporary: { change: Temporary; where: string }[];
}

export function account(steps: readonly Step[]): Account {
  const out: Account = {
    at: "",
    sights: new Map(),
    readings: [],
    looks: [],
    repaired: null,
    isolate: [],
    ticked: new Set(),
    temporary: [],
    ...nothingClosed(),
  };
  for (const step of standing(steps)) {
    switch (step.kind) {
      case "saw":
        out.sights.delete(step.ref);
        if (step.sight !== "unsaid") out.sights.set(step.ref, step.sight);
        break;
      case "reading":
        out.readings.push(step.reading);
        break;
      case "look":
        out.looks.push(step.look);
        break;
      case "condition":
        out.at = step.at;
        break;
      case "repaired":
        out.repaired = { place: step.place, repair: step.repair, faults: step.faults ?? [], names: step.names ?? [] };
        break;
      case "isolate":
        out.isolate = step.refs;
        break;
      case "tick":
        if (step.done) out.ticked.add(step.line);
        else out.ticked.delete(step.line);
        out.finished = false;
        break;
      case "temporary": {
        const same = ({ change, where }: { change: Temporary; where: string }): boolean =>
          change === step.change && where === step.where;
        out.temporary = out.temporary.filter((other) => !same(other));
        if (!step.back) {
          out.temporary.push({ change: step.change, where: step.where });
          out.finished = false;
        }
        break;
      }
      default:
        takeClosing(out, step);
    }
  }
  return out;
}

export function observations({ sights, readings, looks }: Account): Observations {
  const seen = (sight: Sight): string[] => [...sights].filter(([, s]) => s === sight).map(([ref]) => ref);
  return { dead: seen("dead"), works: seen("works"), sees: looks, readings };
}
