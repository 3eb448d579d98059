// One step of a job, as it is kept. Undoing is a step too: nothing is ever
// taken away, so a job can be read later as it happened.

/** What a person can say about a device without a meter. */
export type Sight = "dead" | "works" | "stuck-on" | "weak";

export type Step =
  | { kind: "saw"; ref: string; sight: Sight }
  /** In the words of the command line: "vdc X1:3/out X1:9 24.1@normal". */
  | { kind: "reading"; text: string }
  /** A proposal that cannot be done here and is not to be made again. */
  | { kind: "skipped"; what: string }
  | { kind: "condition"; at: string }
  | { kind: "repaired"; place: string; repair: string }
  | { kind: "undo" };

const sights: readonly Sight[] = ["dead", "works", "stuck-on", "weak"];

/** Reads a step from storage or a file; null for what this page cannot know. */
export function readStep(value: unknown): Step | null {
  if (typeof value !== "object" || value === null) return null;
  const field = (name: string): string | null => {
    const found = (value as Record<string, unknown>)[name];
    return typeof found === "string" && found !== "" ? found : null;
  };
  switch (field("kind")) {
    case "saw": {
      const ref = field("ref");
      const sight = sights.find((known) => known === field("sight"));
      return ref && sight ? { kind: "saw", ref, sight } : null;
    }
    case "reading": {
      const text = field("text");
      return text ? { kind: "reading", text } : null;
    }
    case "skipped": {
      const what = field("what");
      return what ? { kind: "skipped", what } : null;
    }
    case "condition": {
      const at = field("at");
      return at ? { kind: "condition", at } : null;
    }
    case "repaired": {
      const place = field("place");
      const repair = field("repair");
      return place && repair ? { kind: "repaired", place, repair } : null;
    }
    case "undo":
      return { kind: "undo" };
    default:
      return null;
  }
}

/** The steps that stand: each undo takes back the last one before it. */
export function standing(steps: readonly Step[]): Exclude<Step, { kind: "undo" }>[] {
  const out: Exclude<Step, { kind: "undo" }>[] = [];
  for (const step of steps) {
    if (step.kind === "undo") out.pop();
    else out.push(step);
  }
  return out;
}
