// Jobs and their steps. A step is on disk before the screen shows it, so that
// a locked screen or an empty battery loses nothing that was seen.
import { database } from "./db.ts";
import { allOf, type SavedJob, type SavedStep } from "./schema.ts";
import { readStep, type Step } from "./step.ts";
import { awayOf, isAway } from "./trash.ts";
import { write } from "./write.ts";

export async function startJob(panel: string, title: string): Promise<SavedJob> {
  const job: SavedJob = { id: crypto.randomUUID(), panel, title, started: new Date().toISOString() };
  await write(["jobs"], { kind: "job", id: job.id }, (tx) => tx.objectStore("jobs").add(job));
  return job;
}

/** A job of this phone, unless it is unknown or was put away. */
export async function getJob(id: string): Promise<SavedJob | undefined> {
  return (await isAway("job", id)) ? undefined : (await database()).get("jobs", id);
}

/** Jobs of a panel, the newest first. */
export async function jobsOf(panel: string): Promise<SavedJob[]> {
  const away = await awayOf("job");
  const jobs = await (await database()).getAllFromIndex("jobs", "panel", panel);
  return jobs.filter(({ id }) => !away.has(id)).sort((a, b) => (a.started < b.started ? 1 : -1));
}

/** The job begun last, to go on with after the phone was put away. */
export async function latestJob(): Promise<SavedJob | undefined> {
  const away = await awayOf("job");
  const panels = await awayOf("panel");
  const jobs = (await (await database()).getAll("jobs")).filter(({ id, panel }) => !away.has(id) && !panels.has(panel));
  return jobs.reduce<SavedJob | undefined>((last, job) => (last && last.started > job.started ? last : job), undefined);
}

/** The job goes on with another panel, a copy of its own; its notes and photos go with it. */
export async function moveJob(id: string, panel: string): Promise<SavedJob> {
  return write(["jobs", "notes", "photos"], { kind: "job", id }, async (tx) => {
    const job = await tx.objectStore("jobs").get(id);
    if (!job) throw new Error(`no job ${id}`);
    const moved = { ...job, panel };
    await tx.objectStore("jobs").put(moved);
    const notes = await tx.objectStore("notes").index("panel").getAll(job.panel);
    for (const note of notes) if (note.job === id) await tx.objectStore("notes").put({ ...note, panel });
    const photos = await tx.objectStore("photos").index("panel").getAll(job.panel);
    for (const photo of photos) if (photo.job === id) await tx.objectStore("photos").put({ ...photo, panel });
    return moved;
  });
}

/** Appends one step. Two tabs on one job cannot take the same number. */
export async function appendStep(job: string, step: Step): Promise<void> {
  await write(["steps"], { kind: "job", id: job }, async (tx) => {
    const last = await tx.objectStore("steps").openCursor(allOf(job), "prev");
    const seq = last ? last.value.seq + 1 : 0;
    await tx.objectStore("steps").add({ job, seq, when: new Date().toISOString(), step });
  });
}

/** The steps of a job in order; what this page does not know is left out. */
export async function stepsOf(job: string): Promise<Step[]> {
  return (await entriesOf(job)).map(({ step }) => step);
}

/** The same with the time of each. */
export async function entriesOf(job: string): Promise<SavedStep[]> {
  const saved = await (await database()).getAll("steps", allOf(job));
  return saved.flatMap((entry) => {
    const step = readStep(entry.step);
    return step ? [{ ...entry, step }] : [];
  });
}
