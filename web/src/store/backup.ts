// A backup: all that this phone keeps, in one file of readable JSON with one
// record a line. It is put together from pieces that the browser may move to
// the disk, and only one picture at a time is in memory as text.
//
//   {"format": "halfsplit-backup", "version": 1, "made": "…",
//    "panels": […], "versions": […], "jobs": […], "steps": […], "drills": […],
//    "notes": […], "papers": […], "arrivals": […], "photos": […], "trash": […], "settings": […],
//    "images": [{"id": "…", "type": "image/jpeg", "base64": "…"}]}
import { base64 } from "./base64.ts";
import { database } from "./db.ts";
import type { Reading, SavedImage, SavedPhoto, Store } from "./schema.ts";
import { getSetting } from "./settings.ts";
import { once } from "./write.ts";

export const BACKUP_FORMAT = "halfsplit-backup";
export const BACKUP_VERSION = 1;

/** What is said of this phone only, and of no other. */
export const ofThisPhone = new Set(["said-offline", "asked-to-keep", "last-backup", "changed-first", "changed-last"]);

const DAY = 24 * 60 * 60 * 1000;
const REMIND_AFTER_DAYS = 7;

/** Text is handed to the browser in pieces of about this many characters. */
const PIECE = 1 << 18;

export interface Backup {
  file: File;
  /** When what is in it was read: later changes are not in it. */
  made: string;
}

export async function makeBackup(): Promise<Backup> {
  const made = new Date().toISOString();
  const out = pieces();
  out.add(`{"format": ${JSON.stringify(BACKUP_FORMAT)}, "version": ${BACKUP_VERSION}, "made": ${JSON.stringify(made)}`);
  const { photos, images } = await readRecords(out);
  await addList(out, "photos", photos, async ({ preview, ...photo }) => ({ ...photo, preview: await base64(preview) }));
  await addList(out, "images", images, async ({ id, data }) => ({ id, type: data.type, base64: await base64(data) }));
  out.add("\n}\n");
  const name = `halfsplit-backup-${made.slice(0, 16).replace(/[T:]/g, "-")}.json`;
  return { file: new File(out.all(), name, { type: "application/json" }), made };
}

/** Everything of one moment: one transaction, walked through record by record. */
async function readRecords(out: Pieces): Promise<{ photos: SavedPhoto[]; images: SavedImage[] }> {
  const text: Store[] = ["panels", "versions", "jobs", "steps", "drills", "notes", "papers", "arrivals", "trash"];
  const tx = (await database()).transaction([...text, "photos", "images", "settings"]) as Reading;
  for (const store of text) {
    out.add(`,\n${JSON.stringify(store)}: [`);
    let first = true;
    for (let at = await tx.objectStore(store).openCursor(); at; at = await at.continue()) {
      out.add(`${first ? "\n" : ",\n"}${JSON.stringify(at.value)}`);
      first = false;
    }
    out.add("\n]");
  }
  const settings: string[] = [];
  for (let at = await tx.objectStore("settings").openCursor(); at; at = await at.continue()) {
    if (!ofThisPhone.has(at.key)) settings.push(JSON.stringify({ name: at.key, value: at.value }));
  }
  out.add(`,\n"settings": [\n${settings.join(",\n")}\n]`);
  // Pictures come as handles; what they hold is read from the disk when asked for.
  return { photos: await tx.objectStore("photos").getAll(), images: await tx.objectStore("images").getAll() };
}

async function addList<T>(out: Pieces, name: string, all: readonly T[], write: (item: T) => Promise<object>): Promise<void> {
  out.add(`,\n${JSON.stringify(name)}: [`);
  let first = true;
  for (const item of all) {
    out.add(`${first ? "\n" : ",\n"}${JSON.stringify(await write(item))}`);
    first = false;
  }
  out.add("\n]");
}

interface Pieces {
  add(text: string): void;
  all(): Blob[];
}

function pieces(): Pieces {
  const done: Blob[] = [];
  let waiting: string[] = [];
  let length = 0;
  const flush = (): void => {
    done.push(new Blob(waiting));
    waiting = [];
    length = 0;
  };
  return {
    add(text) {
      waiting.push(text);
      length += text.length;
      if (length > PIECE) flush();
    },
    all() {
      flush();
      return done;
    },
  };
}

/** Notes that a backup has been handed over, with all up to when it was made. */
export async function noteBackup(made: string): Promise<void> {
  await once(["settings"], async (tx) => {
    const settings = tx.objectStore("settings");
    await settings.put(made, "last-backup");
    const last = await settings.get("changed-last");
    if (last && last > made) await settings.put(last, "changed-first");
    else await settings.delete("changed-first");
  });
}

export interface BackupState {
  last: Date | null;
  /** Something is on this phone that no backup has. */
  changed: boolean;
  /** It has been so for a week. */
  due: boolean;
}

export async function backupState(now = Date.now()): Promise<BackupState> {
  const [last, changed] = [await getSetting("last-backup"), await getSetting("changed-first")];
  return {
    last: last ? new Date(last) : null,
    changed: changed !== undefined,
    due: changed !== undefined && now - Date.parse(changed) > REMIND_AFTER_DAYS * DAY,
  };
}
