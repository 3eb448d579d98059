// Places what a backup holds among what is on this phone.
import { blobOf } from "./base64.ts";
import { ofThisPhone } from "./backup.ts";
import { alike, digest, panelHas, stepsToAdd } from "./merge.ts";
import type { WrittenPhoto, WrittenSetting } from "./record.ts";
import {
  allOf,
  type Kind,
  type SavedArrival,
  type SavedDrill,
  type SavedJob,
  type SavedNote,
  type SavedPanel,
  type SavedPaper,
  type SavedStep,
  type SavedVersion,
  type Split,
  type Trashed,
  type Writing,
} from "./schema.ts";

/** All of a backup but the pictures. */
export interface Staged {
  panels: SavedPanel[];
  versions: SavedVersion[];
  jobs: SavedJob[];
  steps: SavedStep[];
  drills: SavedDrill[];
  notes: SavedNote[];
  photos: WrittenPhoto[];
  papers: SavedPaper[];
  arrivals: SavedArrival[];
  trash: Trashed[];
  settings: WrittenSetting[];
}

export interface Placed {
  /** Things that are new on this phone. */
  added: number;
  /** Things that were here already, or only went on further. */
  here: number;
  /** Things that differ from what is here under the same id: kept beside it. */
  beside: number;
}

type How = keyof Placed;

export async function place(tx: Writing, staged: Staged): Promise<Placed> {
  const count: Placed = { added: 0, here: 0, beside: 0 };
  const ids = new Map<string, string>(); // by kind and id in the file
  const added = new Set<string>();
  const settle = (kind: Kind, from: string, to: string, how: How): void => {
    count[how]++;
    ids.set(`${kind} ${from}`, to);
    if (how !== "here") added.add(`${kind} ${to}`);
  };
  const now = (kind: Kind, id: string): string => ids.get(`${kind} ${id}`) ?? id;

  const versions = grouped(staged.versions, ({ panel }) => panel);
  for (const panel of staged.panels) {
    const [id, how] = await placePanel(tx, panel, versions.get(panel.id) ?? []);
    settle("panel", panel.id, id, how);
  }
  const steps = grouped(staged.steps, ({ job }) => job);
  for (const job of staged.jobs) {
    const own = (steps.get(job.id) ?? []).sort((a, b) => a.seq - b.seq);
    const [id, how] = await placeJob(tx, job, { ...job, panel: now("panel", job.panel) }, own);
    settle("job", job.id, id, how);
  }
  const moved = <T extends { panel: string; job?: string }>(record: T): T => ({
    ...record,
    panel: now("panel", record.panel),
    ...(record.job && { job: now("job", record.job) }),
  });
  for (const drill of staged.drills) settle("drill", drill.id, ...(await placeRecord(tx, "drills", drill, moved(drill))));
  for (const note of staged.notes) settle("note", note.id, ...(await placeRecord(tx, "notes", note, moved(note))));
  for (const paper of staged.papers) settle("paper", paper.id, ...(await placeRecord(tx, "papers", paper, moved(paper))));
  for (const it of staged.arrivals) settle("arrival", it.id, ...(await placeRecord(tx, "arrivals", it, { ...it, panel: now("panel", it.panel) })));
  for (const { preview, ...photo } of staged.photos) {
    const shown = { preview: blobOf(preview, "image/jpeg") ?? new Blob() };
    settle("photo", photo.id, ...(await placeRecord(tx, "photos", photo, moved(photo), shown)));
  }

  await placeTrash(tx, staged, now, added);
  for (const { name, value } of staged.settings) {
    const known = ofThisPhone.has(name) || (await tx.objectStore("settings").getKey(name)) !== undefined;
    if (!known) await tx.objectStore("settings").put(value, name);
  }
  return count;
}

async function placePanel(tx: Writing, panel: SavedPanel, versions: SavedVersion[]): Promise<[string, How]> {
  const panels = tx.objectStore("panels");
  const keep = async (id: string): Promise<void> => {
    for (const version of versions) {
      const there = await tx.objectStore("versions").getKey([id, version.version]);
      if (there === undefined) await tx.objectStore("versions").add({ ...version, panel: id });
    }
  };
  for (const id of places(panel)) {
    const ours = await panels.get(id);
    if (!ours) continue;
    const chain = { panel: ours, versions: await tx.objectStore("versions").getAll(allOf(id)) };
    if (!panelHas(chain, { panel, versions })) continue;
    await keep(id);
    return [id, "here"];
  }
  const [id, how] = (await panels.getKey(panel.id)) === undefined ? [panel.id, "added" as const] : besideOf(panel, panel);
  if ((await panels.getKey(id)) !== undefined) return [id, "here"];
  await panels.add(how === "beside" ? { ...panel, id, split: { of: panel.id, why: "backup" } } : panel);
  await keep(id);
  return [id, how];
}

async function placeJob(tx: Writing, written: SavedJob, job: SavedJob, steps: SavedStep[]): Promise<[string, How]> {
  const jobs = tx.objectStore("jobs");
  const append = async (id: string, list: SavedStep[]): Promise<void> => {
    for (const step of list) await tx.objectStore("steps").add({ ...step, job: id });
  };
  // One that went two ways before may have gone further on the same way.
  const near = [await jobs.index("panel").getAll(job.panel), await jobs.index("panel").getAll(written.panel)].flat();
  const copies = near.filter(({ split }) => split?.of === job.id);
  for (const id of [...places(job), ...copies.map((copy) => copy.id)]) {
    const ours = await jobs.get(id);
    if (!ours || !(alike(content(ours), content(job)) || alike(content(ours), content(written)))) continue;
    const there = (await tx.objectStore("steps").getAll(allOf(id))).map((step) => ({ ...step, job: job.id }));
    const more = stepsToAdd(there, steps);
    if (!more) continue;
    await append(id, more);
    return [id, "here"];
  }
  const [id, how] = (await jobs.getKey(job.id)) === undefined ? [job.id, "added" as const] : besideOf(job, steps);
  if ((await jobs.getKey(id)) !== undefined) return [id, "here"];
  await jobs.add(how === "beside" ? { ...job, id, split: { of: job.id, why: "backup" } } : job);
  await append(id, steps);
  return [id, how];
}

interface Kept {
  id: string;
  split?: Split;
}

/** A record that stands alone; rest is what is kept with it and not compared. */
async function placeRecord<T extends Kept>(
  tx: Writing,
  store: "drills" | "notes" | "photos" | "papers" | "arrivals",
  written: T,
  record: T,
  rest: object = {},
): Promise<[string, How]> {
  const records = tx.objectStore(store);
  for (const id of places(record)) {
    const ours = await records.get(id);
    if (ours && (alike(content(ours), content(record)) || alike(content(ours), content(written)))) return [id, "here"];
  }
  const [id, how] = (await records.getKey(record.id)) === undefined ? [record.id, "added" as const] : besideOf(record, record);
  if ((await records.getKey(id)) !== undefined) return [id, "here"];
  const split = how === "beside" ? { split: { of: record.id, why: "backup" } } : {};
  await records.add({ ...record, id, ...split, ...rest } as never);
  return [id, how];
}

/** What was put away there stays put away if it is new here; what is shown there is shown. */
async function placeTrash(
  tx: Writing,
  staged: Staged,
  now: (kind: Kind, id: string) => string,
  added: ReadonlySet<string>,
): Promise<void> {
  const trash = tx.objectStore("trash");
  const away = new Set(staged.trash.map(({ kind, id }) => `${kind} ${id}`));
  for (const entry of staged.trash) {
    const id = now(entry.kind, entry.id);
    if (added.has(`${entry.kind} ${id}`)) await trash.put({ ...entry, id });
  }
  const shown = (kind: Kind, records: readonly { id: string }[]): Promise<void>[] =>
    records.filter(({ id }) => !away.has(`${kind} ${id}`)).map(({ id }) => trash.delete([kind, now(kind, id)]));
  await Promise.all([
    ...shown("panel", staged.panels),
    ...shown("job", staged.jobs),
    ...shown("drill", staged.drills),
    ...shown("note", staged.notes),
    ...shown("photo", staged.photos),
    ...shown("paper", staged.papers),
    ...shown("arrival", staged.arrivals),
  ]);
}

/** Where a record of the file may be on this phone already. */
const places = ({ id, split }: Kept): string[] => (split ? [id, split.of] : [id]);

/** An id made of what the record says, so that the same record always gets the same one. */
const besideOf = ({ id }: Kept, saying: unknown): [string, How] => [`${id}~${digest(saying)}`, "beside"];

function content(record: object): object {
  const { id: _id, split: _split, preview: _preview, ...rest } = record as Record<string, unknown>;
  return rest;
}

function grouped<T>(list: readonly T[], key: (item: T) => string): Map<string, T[]> {
  const out = new Map<string, T[]>();
  for (const item of list) {
    const group = out.get(key(item));
    if (group) group.push(item);
    else out.set(key(item), [item]);
  }
  return out;
}
