// The phone's own memory: one versioned IndexedDB database, and how each
// version became the next.
//
//   1  panels, settings, and jobs with their steps inside, so that every step
//      rewrote all the steps before it and a battery that died in the middle
//      could take the job along
//   2  a record of its own for each step
//   3  versions of panels, drills, notes, photos, and what was put away
//   4  papers, and arrivals that wait for a decision
import { openDB } from "idb";
import type { Database, SavedJob, SavedPanel, Schema, Upgrade } from "./schema.ts";
import { readStep } from "./step.ts";

const DB_NAME = "halfsplit";
const DB_VERSION = 4;

let opened: Promise<Database> | undefined;

/** The database; opened again if the browser has closed it. */
export function database(): Promise<Database> {
  const opening = (opened ??= open());
  opening.catch(forget);
  return opening;
}

const forget = (): void => void (opened = undefined);

function open(): Promise<Database> {
  return openDB<Schema>(DB_NAME, DB_VERSION, {
    async upgrade(db, from, _to, tx) {
      if (from < 1) {
        db.createObjectStore("panels", { keyPath: "id" });
        db.createObjectStore("jobs", { keyPath: "id" }).createIndex("panel", "panel");
        db.createObjectStore("settings");
      }
      if (from < 2) {
        db.createObjectStore("steps", { keyPath: ["job", "seq"] });
        await splitSteps(tx);
      }
      if (from < 3) {
        db.createObjectStore("versions", { keyPath: ["panel", "version"] });
        for (const name of ["drills", "notes", "photos"] as const) {
          db.createObjectStore(name, { keyPath: "id" }).createIndex("panel", "panel");
        }
        db.createObjectStore("images", { keyPath: "id" });
        db.createObjectStore("trash", { keyPath: ["kind", "id"] });
        await numberPanels(tx);
      }
      if (from < 4) {
        db.createObjectStore("papers", { keyPath: "id" }).createIndex("panel", "panel");
        db.createObjectStore("arrivals", { keyPath: "id" });
      }
    },
    // Another tab with a newer page must not wait for this one for ever.
    blocking(_from, _to, event) {
      (event.target as IDBDatabase).close();
      forget();
    },
    terminated: forget,
  });
}

/** Version 1 to 2. A step that cannot be read is left out; the job stays. */
async function splitSteps(tx: Upgrade): Promise<void> {
  const jobs = tx.objectStore("jobs");
  const steps = tx.objectStore("steps");
  for (const old of (await jobs.getAll()) as (SavedJob & { steps?: unknown })[]) {
    const list = Array.isArray(old.steps) ? (old.steps as unknown[]) : [];
    let seq = 0;
    for (const entry of list) {
      const step = readStep((entry as { step?: unknown } | null)?.step);
      const when = (entry as { when?: unknown } | null)?.when;
      if (step) await steps.put({ job: old.id, seq: seq++, when: typeof when === "string" ? when : old.started, step });
    }
    await jobs.put({ id: old.id, panel: old.panel, title: old.title, started: old.started });
  }
}

/** Version 2 to 3: what was there before anybody counted is the first version. */
async function numberPanels(tx: Upgrade): Promise<void> {
  const panels = tx.objectStore("panels");
  for (const old of (await panels.getAll()) as (SavedPanel & { version?: number; changed?: string })[]) {
    await panels.put({ ...old, version: 1, changed: old.added });
  }
}
