// A job of this phone as the core's document: what was called in, the panel as
// found, each step with what was read, the cause, the repair and what is still in
// place. Steps that were undone are not in it.
import type { Cause, Job, JobCheck, JobStep, Panel, Photo, Temporary } from "../core/api.ts";
import { lines } from "../store/closing.ts";
import type { SavedJob, SavedNote, SavedPhoto, SavedStep } from "../store/schema.ts";
import { account, observations, standingOf, type Account, type Standing } from "../store/step.ts";
import { say } from "../words.ts";
import { figureOf } from "./figure.ts";
import { wallTime } from "./moment.ts";

/** Of every document of a job; package record reads no other. */
const HEAD = { format: "halfsplit-job", version: 1 };

/** What the phone keeps of one job. */
export interface Kept {
  saved: SavedJob;
  entries: readonly SavedStep[];
  /** As drawn, with its corrections; null where it is gone or unread. */
  panel: Panel | null;
  notes: readonly SavedNote[];
  photos: readonly SavedPhoto[];
}

interface Entry {
  when: string;
  step: Standing;
}

export function documentOf({ saved, entries, panel, notes, photos }: Kept): Job {
  const steps = standingOf(entries, ({ step }) => step) as Entry[];
  const sum = account(entries.map(({ step }) => step));
  const { dead, works } = observations(sum);
  const repaired = steps.find(({ step }) => step.kind === "repaired" || step.kind === "cause" || step.kind === "done");
  const last = steps[steps.length - 1];
  const cause = causeOf(sum);
  const split = repaired && panel && splitCorrections(panel, repaired.when);
  return {
    ...HEAD,
    title: titleOf(sum, namesIn(panel)) || saved.title,
    ...(sum.complaint && { complaint: sum.complaint }),
    started: wallTime(saved.started),
    ...((repaired || sum.finished) && last && { ended: wallTime(last.when) }),
    ...(sum.minutes !== null && { minutes: sum.minutes }),
    ...(sum.who && { who: sum.who }),
    ...(sum.at && { at: sum.at }),
    ...(panel && { panel: split ? split.found : panel }),
    ...(split && split.left.length > 0 && { left: split.left }),
    dead: dead ?? [],
    works: works ?? [],
    steps: workOf(steps),
    ...(cause && { cause }),
    ...((sum.done || sum.repaired) && { repair: sum.done || (sum.repaired?.repair ?? "") }),
    temporary: temporaryOf(steps),
    checks: checksOf(steps, sum, repaired !== undefined),
    photos: photos.map((photo) => photoOf(photo, repaired?.when)),
    notes: notes.map(({ when, text, thing }) => ({ when: wallTime(when), text: thing ? `${thing}: ${text}` : text })),
  };
}

/** What the job is called: by what was dead, or by what was made dead. */
export function titleOf(sum: Account, nameOf: (ref: string) => string): string {
  if (sum.isolate.length > 0) return say("page.isolate-of", { things: sum.isolate.map(nameOf).join(", ") });
  const { dead = [] } = observations(sum);
  return dead.length > 0 ? say("page.title-dead", { things: dead.map(nameOf).join(", ") }) : "";
}

/** As people call the parts of a panel: tag first. */
export function namesIn(panel: Panel | null): (ref: string) => string {
  const tags = new Map((panel?.parts ?? []).map(({ ref, tag }) => [ref, tag]));
  return (ref) => [tags.get(ref), ref].filter(Boolean).join(" ");
}

/** What the person said was the cause; before that, what he repaired. */
export function causeOf({ cause, repaired }: Account): Cause | null {
  if (cause) return cause;
  if (!repaired || repaired.faults.length === 0) return null;
  return { faults: repaired.faults, place: repaired.place, text: repaired.names.join("; ") };
}

/** Corrections made after the repair are the panel as left, those before it as found. */
function splitCorrections(panel: Panel, repaired: string): { found: Panel; left: NonNullable<Panel["found"]> } {
  const all = panel.found ?? [];
  const isLeft = ({ when }: { when?: string }): boolean => when !== undefined && Date.parse(when) > Date.parse(repaired);
  const first = all.findIndex(isLeft);
  if (first < 0) return { found: panel, left: [] };
  return { found: { ...panel, found: all.slice(0, first) }, left: all.slice(first) };
}

function workOf(steps: readonly Entry[]): JobStep[] {
  const out: JobStep[] = [];
  let begun = false;
  for (const { when, step } of steps) {
    const done = stepOf(step);
    // The state the plant was in at first stands at the head of the record.
    if (done && (step.kind !== "condition" || begun)) out.push({ when: wallTime(when), ...done });
    begun ||= step.kind === "condition";
  }
  return out;
}

function stepOf(step: Standing): JobStep | null {
  switch (step.kind) {
    case "reading": {
      const { mode, red, black, at } = step.reading;
      return { kind: "reading", mode, red, black, ...(at && { with: at }), shown: figureOf(step.reading), ...prompted(step) };
    }
    case "look": {
      const { ref, at } = step.look;
      return { kind: "look", ref, ...(at && { with: at }), shown: step.shown, ...prompted(step) };
    }
    case "condition":
      return { kind: "work", text: say("page.with-condition", { at: step.at }) };
    case "repaired":
      return { kind: "work", text: say("page.did-repair", { place: step.place, repair: step.repair }) };
    case "isolate":
      return { kind: "work", text: say("page.isolate-begun", { things: step.refs.join(", ") }) };
    default:
      return null; // it stands elsewhere in the record
  }
}

const prompted = ({ expected, why }: { expected?: string; why?: string }): { expected?: string; why?: string } => ({
  ...(expected && { expected }),
  ...(why && { why }),
});

function temporaryOf(steps: readonly Entry[]): Temporary[] {
  const out: Temporary[] = [];
  for (const { when, step } of steps) {
    if (step.kind !== "temporary") continue;
    const open = out.find(({ what, where, back }) => what === step.change && where === step.where && !back);
    if (!step.back && !open) out.push({ what: step.change, where: step.where, placed: wallTime(when) });
    else if (step.back && open) open.back = wallTime(when);
  }
  return out;
}

/** The ticks of an isolation, then the list before leaving: what is not ticked there is open. */
function checksOf(steps: readonly Entry[], { checked, settled }: Account, repaired: boolean): JobCheck[] {
  const ticks = new Map<string, string>();
  const closing = new Map<string, string>();
  let settledAt = "";
  for (const { when, step } of steps) {
    if (step.kind === "tick") ticks.set(step.line, step.done ? wallTime(when) : "");
    if (step.kind === "check") closing.set(step.line, wallTime(when));
    if (step.kind === "settled") settledAt = wallTime(when);
  }
  const check = (text: string, done: string): JobCheck => ({ text, ...(done && { done }) });
  return [
    ...[...ticks].map(([line, done]) => check(line, done)),
    ...(settled ? [check(say(`page.settled-${settled.how}`), settledAt)] : []),
    ...(repaired
      ? lines.map((line) => {
          const text = checked.get(line);
          return check(text ?? say(`page.leave-${line}`), text === undefined ? "" : (closing.get(line) ?? ""));
        })
      : []),
  ];
}

/** The picture stays on the phone; its name says when it was taken, which finds it again. */
function photoOf({ when, thing, marks }: SavedPhoto, repaired: string | undefined): Photo {
  const about = [thing, ...marks.map(({ terminal }) => terminal)].filter(Boolean).join(", ");
  return { name: wallTime(when), of: repaired && when > repaired ? "left" : "found", ...(about && { about }) };
}
