// What earlier jobs at a panel found: it raises a suspect the next time, and
// tells who comes later what there was.
import type { Earlier } from "../core/api.ts";
import { entriesOf, jobsOf } from "../store/jobs.ts";
import { papersOf } from "../store/papers.ts";
import type { SavedJob, SavedPaper } from "../store/schema.ts";
import { account, standingOf, type Account } from "../store/step.ts";
import { causeOf, namesIn, titleOf } from "./document.ts";
import { toldBy } from "./elsewhere.ts";
import { panelOf } from "./gather.ts";
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
  temporary: Account["temporary"];
  /** When, with a cause or a repair, or as work that was finished; empty before. */
  ended: string;
}

/** The jobs of a panel, the newest first. */
export async function earlierJobs(panel: string): Promise<EarlierJob[]> {
  const [jobs, drawing] = [await jobsOf(panel), await panelOf(panel)];
  return Promise.all(jobs.map((saved) => summary(saved, namesIn(drawing))));
}

async function summary(saved: SavedJob, nameOf: (ref: string) => string): Promise<EarlierJob> {
  const entries = await entriesOf(saved.id);
  const sum = account(entries.map(({ step }) => step));
  const times = standingOf(entries, ({ step }) => step).map(({ when }) => when);
  const cause = causeOf(sum);
  return {
    saved,
    symptom: sum.complaint || titleOf(sum, nameOf),
    cause: cause ? cause.text || cause.place || "" : (sum.repaired?.place ?? ""),
    faults: cause?.faults ?? [],
    minutes: sum.minutes ?? minutesBetween(times),
    temporary: sum.temporary,
    ended: cause || sum.repaired || sum.done || sum.finished ? (times.at(-1) ?? "") : "",
  };
}

/** Causes that the model knows by name, of all jobs at the panel but one, here and elsewhere. */
export async function historyOf(panel: string, but: string): Promise<Earlier[]> {
  const jobs = (await jobsOf(panel)).filter(({ id }) => id !== but);
  const here = await Promise.all(jobs.map((saved) => summary(saved, (ref) => ref)));
  const found = here.map(({ faults, ended }) => ({ when: dayOf(ended && wallTime(ended)), faults }));
  return [...found, ...(await papersOf(panel)).map(foundElsewhere)].filter(({ faults }) => faults.length > 0);
}

/** What a received record says was the cause; it was read by the core when it came. */
function foundElsewhere(paper: SavedPaper): Earlier {
  const { ended, faults } = toldBy(paper);
  return { when: dayOf(ended), faults };
}

const dayOf = (time: string): string => time.slice(0, "2026-11-27".length);
