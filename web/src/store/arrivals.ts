// What came from elsewhere and waits for a person's decision. Until then it is
// no panel and no record.
import { tell } from "./changes.ts";
import { database } from "./db.ts";
import type { SavedArrival } from "./schema.ts";
import { awayOf, isAway } from "./trash.ts";
import { once, write } from "./write.ts";

export async function addArrival(arrived: Omit<SavedArrival, "id" | "received">): Promise<string> {
  const arrival: SavedArrival = { id: crypto.randomUUID(), ...arrived, received: new Date().toISOString() };
  await putArrival(arrival);
  return arrival.id;
}

/** Also brings one back that was decided, undone. */
export async function putArrival(arrival: SavedArrival): Promise<void> {
  await write(["arrivals"], { kind: "arrival", id: arrival.id }, (tx) => tx.objectStore("arrivals").put(arrival));
}

/** An arrival, unless it is decided or was put away. */
export async function getArrival(id: string): Promise<SavedArrival | undefined> {
  return (await isAway("arrival", id)) ? undefined : (await database()).get("arrivals", id);
}

/** What waits, the newest first. */
export async function arrivals(): Promise<SavedArrival[]> {
  const away = await awayOf("arrival");
  const all = await (await database()).getAll("arrivals");
  return all.filter(({ id }) => !away.has(id)).sort((a, b) => (a.received < b.received ? 1 : -1));
}

/** It is decided. */
export async function dropArrival(id: string): Promise<void> {
  await once(["arrivals"], (tx) => tx.objectStore("arrivals").delete(id));
  tell({ kind: "arrival", id });
}
