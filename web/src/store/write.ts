// The one way to the disk. A write resolves once the phone has written it down,
// not merely taken it. One for which there is no room is not given up: it is
// held until the person has made room, or says to leave it out.
import { tell, type Change } from "./changes.ts";
import { database } from "./db.ts";
import type { Store, Writing } from "./schema.ts";

/** The person chose to leave out what did not fit. */
export class LeftOut extends Error {
  override name = "LeftOut";
}

interface Held {
  again(): void;
  leaveOut(): void;
}

let held: Held[] = [];
const watchers = new Set<(waiting: number) => void>();
let written = (): void => {};

/** How many writes wait for room; called at once and at every change. */
export function watchHeld(watcher: (waiting: number) => void): () => void {
  watchers.add(watcher);
  watcher(held.length);
  return () => watchers.delete(watcher);
}

export function tryHeldAgain(): void {
  for (const { again } of release()) again();
}

export function leaveHeldOut(): void {
  for (const { leaveOut } of release()) leaveOut();
}

function release(): Held[] {
  const all = held;
  held = [];
  for (const watcher of watchers) watcher(0);
  return all;
}

/** Called once, after the first write that is worth keeping for good. */
export function onFirstWrite(then: () => void): void {
  written = () => {
    written = () => {};
    then();
  };
}

/**
 * Runs act in one transaction over the stores and tells everybody of the change.
 * Either all of it is on disk or none. act may run again after there is room.
 *
 * Errors: LeftOut when there was no room and the person gave up; whatever act
 * throws, with nothing written.
 */
export async function write<T>(stores: Store[], change: Change, act: (tx: Writing) => Promise<T>): Promise<T> {
  const value = await whenRoom(() =>
    once([...new Set<Store>([...stores, "settings"])], async (tx) => {
      const done = await act(tx);
      await noteChange(tx);
      return done;
    }),
  );
  tell(change);
  written();
  return value;
}

/** Tries until there is room for it. Errors: LeftOut, and those of attempt. */
export async function whenRoom<T>(attempt: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      return await attempt();
    } catch (why) {
      if (!isFull(why)) throw why;
      await room();
    }
  }
}

/** One transaction and nothing else: for bookkeeping, and for removal, which needs no room. */
export async function once<T>(stores: Store[], act: (tx: Writing) => Promise<T>): Promise<T> {
  const tx = (await database()).transaction(stores, "readwrite", { durability: "strict" });
  const done = tx.done.then(
    () => null,
    (why: unknown) => ({ why }),
  );
  let value: T;
  try {
    value = await act(tx);
  } catch (why) {
    abort(tx);
    // A put that did not fit fails with the transaction, which knows why.
    const failed = await done;
    throw failed && isFull(failed.why) ? failed.why : why;
  }
  const failed = await done;
  if (failed) throw failed.why;
  return value;
}

function abort(tx: Writing): void {
  try {
    tx.abort();
  } catch {
    // It has already ended.
  }
}

/** Since when there is something that no backup has. */
async function noteChange(tx: Writing): Promise<void> {
  const settings = tx.objectStore("settings");
  const now = new Date().toISOString();
  if (!(await settings.get("changed-first"))) await settings.put(now, "changed-first");
  await settings.put(now, "changed-last");
}

function isFull(why: unknown): boolean {
  return why instanceof DOMException && why.name === "QuotaExceededError";
}

function room(): Promise<void> {
  return new Promise((again, reject) => {
    held = [...held, { again, leaveOut: () => reject(new LeftOut()) }];
    for (const watcher of watchers) watcher(held.length);
  });
}
