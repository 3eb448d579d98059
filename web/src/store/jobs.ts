// Jobs and their steps. A step is on disk before the screen shows it, so that
// a locked screen or an empty battery loses nothing that was seen.
import { openDatabase, type Database, type SavedJob, type SavedPanel } from "./db.ts";
import { readStep, type Step } from "./step.ts";

let opened: Promise<Database> | undefined;
const database = (): Promise<Database> => (opened ??= openDatabase());

/** Resolves once the phone has written it down, not merely taken it. */
const strict = { durability: "strict" } as const;

export async function startJob(panel: string, title: string): Promise<SavedJob> {
  const job: SavedJob = { id: crypto.randomUUID(), panel, title, started: new Date().toISOString() };
  const tx = (await database()).transaction("jobs", "readwrite", strict);
  await tx.store.add(job);
  await tx.done;
  return job;
}

export async function getJob(id: string): Promise<SavedJob | undefined> {
  return (await database()).get("jobs", id);
}

/** Jobs of a panel, the newest first. */
export async function jobsOf(panel: string): Promise<SavedJob[]> {
  const jobs = await (await database()).getAllFromIndex("jobs", "panel", panel);
  return jobs.sort((a, b) => (a.started < b.started ? 1 : -1));
}

/** The job begun last, to go on with after the phone was put away. */
export async function latestJob(): Promise<SavedJob | undefined> {
  const jobs = await (await database()).getAll("jobs");
  return jobs.reduce<SavedJob | undefined>((last, job) => (last && last.started > job.started ? last : job), undefined);
}

/** Appends one step. Two tabs on one job cannot take the same number. */
export async function appendStep(job: string, step: Step): Promise<void> {
  const tx = (await database()).transaction("steps", "readwrite", strict);
  const last = await tx.store.openCursor(stepsOfJob(job), "prev");
  const seq = last ? last.value.seq + 1 : 0;
  await tx.store.add({ job, seq, when: new Date().toISOString(), step });
  await tx.done;
}

/** The steps of a job in order; what this page does not know is left out. */
export async function stepsOf(job: string): Promise<Step[]> {
  const saved = await (await database()).getAll("steps", stepsOfJob(job));
  return saved.map((entry) => readStep(entry.step)).filter((step) => step !== null);
}

const stepsOfJob = (job: string): IDBKeyRange => IDBKeyRange.bound([job, 0], [job, Infinity]);

export async function addPanel(title: string, text: string): Promise<SavedPanel> {
  const panel: SavedPanel = { id: `file:${crypto.randomUUID()}`, title, text, added: new Date().toISOString() };
  const tx = (await database()).transaction("panels", "readwrite", strict);
  await tx.store.add(panel);
  await tx.done;
  return panel;
}

export async function addedPanels(): Promise<SavedPanel[]> {
  return (await database()).getAll("panels");
}

export async function getPanel(id: string): Promise<SavedPanel | undefined> {
  return (await database()).get("panels", id);
}

/** Takes a panel off this phone, with its jobs and their steps. */
export async function removePanel(id: string): Promise<void> {
  const tx = (await database()).transaction(["panels", "jobs", "steps"], "readwrite", strict);
  const jobs = tx.objectStore("jobs");
  for (const key of await jobs.index("panel").getAllKeys(id)) {
    await tx.objectStore("steps").delete(stepsOfJob(key));
    await jobs.delete(key);
  }
  await tx.objectStore("panels").delete(id);
  await tx.done;
}

export async function getSetting(name: string): Promise<string | undefined> {
  return (await database()).get("settings", name);
}

export async function putSetting(name: string, value: string): Promise<void> {
  await (await database()).put("settings", value, name);
}
