// A job as its own screens hold it: read again when another tab goes on with it.
import type { Job } from "../trace/job.tsx";
import { useKept } from "../keep/kept.ts";
import { appendStep, entriesOf, getJob } from "../store/jobs.ts";
import type { SavedStep } from "../store/schema.ts";
import { account, standingOf, type Standing, type Step } from "../store/step.ts";
import type { Answer } from "../ui/answer.ts";
import { say } from "../words.ts";
import { unsettle } from "./settle.ts";

export interface ClosingJob extends Omit<Job, "wrong"> {
  /** When its standing steps were taken. */
  times: string[];
}

export function useJob(id: string): Answer<ClosingJob> {
  const mine = ({ kind, id: which }: { kind: string; id?: string }): boolean => kind === "all" || (kind === "job" && which === id);
  return useKept(() => readJob(id), [id], mine);
}

async function readJob(id: string): Promise<ClosingJob> {
  const saved = await getJob(id);
  if (!saved) throw new Error(say("page.no-such-job"));
  const entries: SavedStep[] = await entriesOf(id);
  const stand = standingOf(entries, ({ step }) => step);
  const steps = stand.map(({ step }) => step) as Standing[];
  const append = (step: Step): Promise<void> => appendStep(id, step);
  return {
    saved,
    steps,
    times: stand.map(({ when }) => when),
    account: account(entries.map(({ step }) => step)),
    append,
    undo: steps.length > 1 ? () => void unsettle(saved.panel, steps.at(-1)).then(() => append({ kind: "undo" })) : null,
  };
}
