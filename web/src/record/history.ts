// What earlier jobs at a panel found: it raises a suspect the next time, and
// tells who comes later what there was.
import type { Earlier } from "../core/api.ts";
import { entriesOf, jobsOf } from "../store/jobs.ts";
import type { SavedJob } from "../store/schema.ts";
import { account, standingOf } from "../store/step.ts";
import { causeOf, titleOf } from "./document.ts";
import { minutesBetween, wallTime } from "./moment.ts";

export interface EarlierJob {
  saved: SavedJob;
  /** "B2 dead", or empty where nothing was said. */
  symptom: string;
  /** In words; empty while it is unknown. */
  cause: string;
  faults: string[];
  minutes: number;
  /** What is not back as it was. */
  temporary: number;
  /** It has a cause or a repair. */
  ended: string;
}

/** The jobs of a panel, the newest first. */
export async function earlierJobs(panel: string): Promise<EarlierJob[]> {
  return Promise.all((await jobsOf(panel)).map(summary));
}

async function summary(saved: SavedJob): Promise<EarlierJob> {
  const entries = await entriesOf(saved.id);
  const sum = account(entries.map(({ step }) => step));
  const times = standingOf(entries, ({ step }) => step).map(({ when }) => when);
  const cause = causeOf(sum);
  return {
    saved,
    symptom: sum.complaint || titleOf(sum),
    cause: cause ? cause.text || cause.place || "" : (sum.repaired?.place ?? ""),
    faults: cause?.faults ?? [],
    minutes: sum.minutes ?? minutesBetween(times),
    temporary: sum.temporary.length,
    ended: cause || sum.repaired || sum.done ? (times.at(-1) ?? "") : "",
  };
}

/** Causes that the model knows by name, of all jobs at the panel but one. */
export async function historyOf(panel: string, but: string): Promise<Earlier[]> {
  return (await earlierJobs(panel))
    .filter(({ saved, faults }) => saved.id !== but && faults.length > 0)
    .map(({ faults, ended }) => ({ when: wallTime(ended).slice(0, "2026-11-27".length), faults }));
}
