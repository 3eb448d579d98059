// What a person says of a job once the culprit is found: the cause, what was
// done, what was checked, who did it and how long it took. Each is a step like
// any other, so it can be undone, and the last word counts.

export type Closing =
  /** What was called in, in the caller's words. */
  | { kind: "complaint"; text: string }
  /** Faults by canonical name, none where the model does not know it. */
  | { kind: "cause"; faults: string[]; place: string; text: string }
  | { kind: "done"; text: string }
  /** One line of the list to go through before leaving, with the words it had. */
  | { kind: "check"; line: Line; text: string; done: boolean }
  | { kind: "who"; name: string }
  | { kind: "minutes"; minutes: number }
  /** Where no cause is looked for, that the work is over; whatever is done after it begins it again. */
  | { kind: "finished" }
  /** What was found otherwise is the drawing now, or was put back as drawn; before, the panel had this version. */
  | { kind: "settled"; how: "adopted" | "put-back"; version: number };

/** Lines of that list; in this order they are gone through (common practice). */
export const lines = ["function", "same-fuse", "links", "levers", "covers", "note"] as const;
export type Line = (typeof lines)[number];

/** Reads such a step; undefined for one of another kind, null for one that is half there. */
export function readClosing(value: object): Closing | null | undefined {
  const record = value as Record<string, unknown>;
  const text = (name: string): string | null => (typeof record[name] === "string" ? (record[name] as string) : null);
  const number = (name: string): number | null =>
    Number.isSafeInteger(record[name]) && (record[name] as number) >= 0 ? (record[name] as number) : null;
  const kind = text("kind");
  switch (kind) {
    case "complaint":
    case "done": {
      const words = text("text");
      return words === null ? null : { kind, text: words };
    }
    case "cause": {
      const [place, words] = [text("place") ?? "", text("text") ?? ""];
      const faults = names(record["faults"]);
      return faults.length > 0 || place || words ? { kind, faults, place, text: words } : null;
    }
    case "check": {
      const line = lines.find((known) => known === text("line"));
      const words = text("text");
      return line && words ? { kind, line, text: words, done: record["done"] === true } : null;
    }
    case "who": {
      const name = text("name");
      return name === null ? null : { kind, name };
    }
    case "minutes": {
      const minutes = number("minutes");
      return minutes === null ? null : { kind, minutes };
    }
    case "finished":
      return { kind };
    case "settled": {
      const how = (["adopted", "put-back"] as const).find((known) => known === text("how"));
      const version = number("version");
      return how && version ? { kind, how, version } : null;
    }
    default:
      return undefined;
  }
}

/** The texts of a list; whatever else is in it is left out. */
export function names(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((name): name is string => typeof name === "string" && name !== "") : [];
}

/** What the closing steps come to. */
export interface Closed {
  complaint: string;
  cause: { faults: string[]; place: string; text: string } | null;
  done: string;
  /** Lines that are done, with their words. */
  checked: Map<Line, string>;
  who: string;
  /** Null until somebody has said. */
  minutes: number | null;
  finished: boolean;
  settled: { how: "adopted" | "put-back"; version: number } | null;
}

export const nothingClosed = (): Closed => ({
  complaint: "",
  cause: null,
  done: "",
  checked: new Map(),
  who: "",
  minutes: null,
  finished: false,
  settled: null,
});

/** Takes one step into account. */
export function takeClosing(out: Closed, step: Closing): void {
  switch (step.kind) {
    case "complaint":
      out.complaint = step.text;
      break;
    case "cause":
      out.cause = { faults: step.faults, place: step.place, text: step.text };
      break;
    case "done":
      out.done = step.text;
      break;
    case "check":
      if (step.done) out.checked.set(step.line, step.text);
      else out.checked.delete(step.line);
      break;
    case "who":
      out.who = step.name;
      break;
    case "minutes":
      out.minutes = step.minutes;
      break;
    case "finished":
      out.finished = true;
      break;
    case "settled":
      out.settled = { how: step.how, version: step.version };
      break;
  }
}
