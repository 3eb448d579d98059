// How a job begins: the state of the plant first, then what is dead.
import { appendStep, startJob } from "../store/jobs.ts";
import { onceAtATime } from "../ui/onceatatime.ts";
import { go } from "../ui/route.ts";

export const beginTrace = onceAtATime(async (panel: string, title: string, at: string, dead: readonly string[]) => {
  const job = await startJob(panel, title);
  await appendStep(job.id, { kind: "condition", at });
  for (const ref of dead) await appendStep(job.id, { kind: "saw", ref, sight: "dead" });
  go({ at: "job", job: job.id, view: "marks" });
});

/** A job that makes things dead, to work on them. */
export const beginIsolation = onceAtATime(async (panel: string, title: string, at: string, refs: readonly string[]) => {
  const job = await startJob(panel, title);
  await appendStep(job.id, { kind: "condition", at });
  await appendStep(job.id, { kind: "isolate", refs: [...refs] });
  go({ at: "job", job: job.id, view: "marks" });
});
