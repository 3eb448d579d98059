// What is kept of an attempt at a drill, and how it is read from the disk or a
// file: what this page does not know is left out.
import type { DrillAct } from "../core/api.ts";

/** How the learner thinks it went, before the score is shown. */
export type Rating = "sure" | "half" | "lucky" | "lost";

export interface Attempt {
  /** The embedded drill's name, or the text of its file. */
  demo: string;
  text: string;
  seed: number;
  grade: number;
  learner: string;
  acts: DrillAct[];
  rating: Rating | null;
  /** After the debrief: "found", "guessed" ...; empty before. */
  result: string;
  /** Classes of the hidden faults, known after the debrief. */
  classes: string[];
  minutes: number;
  readings: number;
  gates: string[];
  /** The trainer's. */
  remark: string;
  signed: string;
}

const ratings: readonly Rating[] = ["sure", "half", "lucky", "lost"];

/** What this page does not know is left out; the acts are for the core to judge. */
export function readAttempt(record: unknown): Attempt {
  const from = typeof record === "object" && record !== null ? (record as Record<string, unknown>) : {};
  const text = (name: string): string => (typeof from[name] === "string" ? from[name] : "");
  const number = (name: string): number => (Number.isFinite(from[name]) ? (from[name] as number) : 0);
  const list = (name: string): unknown[] => (Array.isArray(from[name]) ? from[name] : []);
  const words = (name: string): string[] => list(name).filter((word): word is string => typeof word === "string");
  return {
    demo: text("demo"),
    text: text("text"),
    seed: number("seed"),
    grade: number("grade"),
    learner: text("learner"),
    acts: list("acts").filter(isAct),
    rating: ratings.find((known) => known === from["rating"]) ?? null,
    result: text("result"),
    classes: words("classes"),
    minutes: number("minutes"),
    readings: number("readings"),
    gates: words("gates"),
    remark: text("remark"),
    signed: text("signed"),
  };
}

function isAct(value: unknown): value is DrillAct {
  return typeof value === "object" && value !== null && typeof (value as DrillAct).kind === "string";
}
