// Attempts at drills. What was done is written down before it is shown; the
// score is the core's answer to it, so that none needs to be kept but a few
// words for the records.
import { readAttempt, type Attempt } from "./attempt.ts";
import { database } from "./db.ts";
import type { SavedDrill } from "./schema.ts";
import { awayOf, isAway } from "./trash.ts";
import { write } from "./write.ts";

export interface SavedAttempt {
  id: string;
  title: string;
  started: string;
  attempt: Attempt;
}

export async function startAttempt(
  from: Pick<Attempt, "demo" | "text" | "seed" | "grade" | "learner">,
  title: string,
): Promise<SavedAttempt> {
  const attempt: Attempt = {
    ...from,
    acts: [],
    rating: null,
    result: "",
    classes: [],
    minutes: 0,
    readings: 0,
    gates: [],
    remark: "",
    signed: "",
  };
  const saved: SavedDrill = {
    id: crypto.randomUUID(),
    panel: "",
    title,
    started: new Date().toISOString(),
    record: attempt,
  };
  await write(["drills"], { kind: "drill", id: saved.id }, (tx) => tx.objectStore("drills").add(saved));
  return { id: saved.id, title, started: saved.started, attempt };
}

export async function getAttempt(id: string): Promise<SavedAttempt | undefined> {
  if (await isAway("drill", id)) return undefined;
  const saved = await (await database()).get("drills", id);
  return saved && read(saved);
}

/** All attempts of this phone, the newest first. */
export async function attempts(): Promise<SavedAttempt[]> {
  const away = await awayOf("drill");
  const all = await (await database()).getAll("drills");
  return all
    .filter(({ id }) => !away.has(id))
    .map(read)
    .sort((a, b) => (a.started < b.started ? 1 : -1));
}

/** Changes what is kept of an attempt, as it is on the disk now. */
export async function changeAttempt(id: string, change: (attempt: Attempt) => Attempt): Promise<Attempt> {
  return write(["drills"], { kind: "drill", id }, async (tx) => {
    const saved = await tx.objectStore("drills").get(id);
    if (!saved) throw new Error(`there is no attempt ${id}`);
    const attempt = change(read(saved).attempt);
    await tx.objectStore("drills").put({ ...saved, record: attempt });
    return attempt;
  });
}

function read({ id, title, started, record }: SavedDrill): SavedAttempt {
  return { id, title, started, attempt: readAttempt(record) };
}
