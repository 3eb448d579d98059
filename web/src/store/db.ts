// The phone's own memory: one versioned IndexedDB database.
//
//   panels    panels added from a file, as they were written
//   jobs      one record a job: which panel, what kind, when
//   steps     what was done in a job, one record a step, only ever appended
//   settings  small choices by name
//
// Version 1 kept a job's steps inside its record, so that every step rewrote
// all the steps before it; a battery that died in the middle could take the
// job along. Version 2 gives each step a record of its own.
import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from "idb";
import { readStep, type Step } from "./step.ts";

const DB_NAME = "halfsplit";
const DB_VERSION = 2;

export interface SavedPanel {
  id: string;
  title: string;
  /** The document as it was written; only the core reads it. */
  text: string;
  added: string;
}

export interface SavedJob {
  id: string;
  panel: string;
  title: string;
  started: string;
}

interface SavedStep {
  job: string;
  seq: number;
  when: string;
  step: Step;
}

interface Schema extends DBSchema {
  panels: { key: string; value: SavedPanel };
  jobs: { key: string; value: SavedJob; indexes: { panel: string } };
  steps: { key: [string, number]; value: SavedStep };
  settings: { key: string; value: string };
}

export type Database = IDBPDatabase<Schema>;
type Upgrade = IDBPTransaction<Schema, StoreNames<Schema>[], "versionchange">;

export function openDatabase(): Promise<Database> {
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
    },
    // Another tab with a newer page must not wait for this one for ever.
    blocking(_from, _to, event) {
      (event.target as IDBDatabase).close();
    },
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
