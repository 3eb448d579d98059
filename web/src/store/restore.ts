// Brings back what a backup holds. The pictures go to disk as they are read;
// everything else in one transaction at the end, so that a phone that dies in
// the middle has either all of it or nothing that shows. Doing it twice does no
// more than doing it once.
import { BACKUP_FORMAT, BACKUP_VERSION } from "./backup.ts";
import { blobOf } from "./base64.ts";
import { elements } from "./elements.ts";
import { place, type Placed, type Staged } from "./place.ts";
import { readers, type WrittenImage } from "./record.ts";
import { storeOf } from "./schema.ts";
import { IMAGES_LOCK } from "./trash.ts";
import { once, whenRoom, write } from "./write.ts";

/** The file is no backup, or one of a later version than this page can read. */
export class NotABackup extends Error {
  override name = "NotABackup";
  readonly newer: boolean;
  constructor(newer: boolean) {
    super(newer ? "a backup of a later version" : "not a backup");
    this.newer = newer;
  }
}

export interface Restored extends Placed {
  /** Entries that this page cannot read; they were left out. */
  unread: number;
}

/** Errors: NotABackup, BadDocument, LeftOut; then nothing of the file shows. */
export async function restore(file: Blob): Promise<Restored> {
  return navigator.locks.request(IMAGES_LOCK, async () => {
    const { staged, unread } = await stage(file);
    const stores = [...Object.values(storeOf), "versions", "steps", "trash"] as const;
    const placed = await write([...stores], { kind: "all" }, (tx) => place(tx, staged));
    return { ...placed, unread };
  });
}

async function stage(file: Blob): Promise<{ staged: Staged; unread: number }> {
  const staged: Staged = {
    panels: [],
    versions: [],
    jobs: [],
    steps: [],
    drills: [],
    notes: [],
    photos: [],
    papers: [],
    arrivals: [],
    trash: [],
    settings: [],
  };
  let unread = 0;
  let known = false;
  for await (const { name, value } of elements(text(file))) {
    if (name === "format") known = value === BACKUP_FORMAT;
    if (!known) throw new NotABackup(false);
    if (name === "version" && (typeof value !== "number" || value > BACKUP_VERSION)) throw new NotABackup(true);
    if (!isList(name)) continue;
    const record = readers[name](value);
    if (!record) unread++;
    else if (name === "images") await keepImage(record as WrittenImage);
    else (staged[name] as (typeof record)[]).push(record);
  }
  if (!known) throw new NotABackup(false);
  return { staged, unread };
}

const isList = (name: string): name is keyof typeof readers => Object.hasOwn(readers, name);

async function keepImage({ id, type, base64 }: WrittenImage): Promise<void> {
  const data = blobOf(base64, type);
  if (!data) return;
  await whenRoom(() =>
    once(["images"], async (tx) => {
      const images = tx.objectStore("images");
      if ((await images.getKey(id)) === undefined) await images.add({ id, data });
    }),
  );
}

async function* text(file: Blob): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  const reader = file.stream().getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    yield decoder.decode(value, { stream: true });
  }
  yield decoder.decode();
}
