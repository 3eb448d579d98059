// What was put away: for thirty days it is only hidden, and one tap brings it
// back. The record stays where it is; the trash says that it is not to be shown.
import { tell } from "./changes.ts";
import { database } from "./db.ts";
import { allOf, storeOf, type Kind, type Trashed, type Writing } from "./schema.ts";
import { once, write } from "./write.ts";

const DAY = 24 * 60 * 60 * 1000;
export const DAYS_KEPT = 30;

/** Held while there may be images on disk whose photos are still to come. */
export const IMAGES_LOCK = "halfsplit-images";

export async function putAway(kind: Kind, id: string, title: string): Promise<void> {
  await write(["trash"], { kind, id }, (tx) =>
    tx.objectStore("trash").put({ kind, id, title, when: new Date().toISOString() }),
  );
}

export async function bringBack(kind: Kind, id: string): Promise<void> {
  await write(["trash"], { kind, id }, (tx) => tx.objectStore("trash").delete([kind, id]));
}

/** What was put away, the latest first. */
export async function putAwayThings(): Promise<Trashed[]> {
  const all = await (await database()).getAll("trash");
  return all.sort((a, b) => (a.when < b.when ? 1 : -1));
}

export async function isAway(kind: Kind, id: string): Promise<boolean> {
  return (await (await database()).getKey("trash", [kind, id])) !== undefined;
}

/** The ids of a kind that are not to be shown. */
export async function awayOf(kind: Kind): Promise<Set<string>> {
  const keys = await (await database()).getAllKeys("trash", IDBKeyRange.bound([kind, ""], [kind, "\uffff"]));
  return new Set(keys.map(([, id]) => id));
}

/** Removes a thing and all that hangs on it. This is the only way that anything goes. */
export async function deleteForGood(kind: Kind, id: string): Promise<void> {
  await navigator.locks.request(IMAGES_LOCK, () =>
    once([...Object.values(storeOf), "versions", "steps", "images", "trash"], async (tx) => {
      await remove(tx, kind, id);
      await sweep(tx);
    }),
  );
  tell({ kind, id });
}

/** Removes what has lain in the trash for thirty days. */
export async function purge(now = Date.now()): Promise<void> {
  for (const { kind, id, when } of await putAwayThings()) {
    if (now - Date.parse(when) > DAYS_KEPT * DAY) await deleteForGood(kind, id);
  }
}

async function remove(tx: Writing, kind: Kind, id: string): Promise<void> {
  if (kind === "panel") await removeOfPanel(tx, id);
  if (kind === "job") {
    await tx.objectStore("steps").delete(allOf(id));
    for (const name of ["notes", "photos"] as const) {
      let at = await tx.objectStore(name).openCursor();
      for (; at; at = await at.continue()) {
        if (at.value.job === id) await at.delete();
      }
    }
  }
  await tx.objectStore(storeOf[kind]).delete(id);
  await tx.objectStore("trash").delete([kind, id]);
}

async function removeOfPanel(tx: Writing, panel: string): Promise<void> {
  for (const kind of ["job", "drill", "note", "photo", "paper"] as const) {
    for (const id of await tx.objectStore(storeOf[kind]).index("panel").getAllKeys(panel)) {
      await remove(tx, kind, id);
    }
  }
  await tx.objectStore("versions").delete(allOf(panel));
}

/** Removes the images that no photo shows any more. */
async function sweep(tx: Writing): Promise<void> {
  const shown = new Set((await tx.objectStore("photos").getAll()).map(({ image }) => image));
  for (const id of await tx.objectStore("images").getAllKeys()) {
    if (!shown.has(id)) await tx.objectStore("images").delete(id);
  }
}
