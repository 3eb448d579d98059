// What the phone keeps, record by record.
//
//   panels    panels added from a file, the drawing as it stands now
//   versions  the drawings a panel had before, one record each
//   jobs      one record a job: which panel, what kind, when
//   steps     what was done in a job, one record a step, only ever appended
//   drills    exercises: what was asked of a learner and how it went
//   notes     plain text that belongs to a panel, a job or one thing
//   photos    what is known of a picture, with a small preview
//   images    the pictures themselves; one never changes once it is written
//   papers    records of jobs that came from elsewhere, each one document
//   arrivals  what was received and is not decided yet
//   trash     what was put away and when; the records stay where they are
//   settings  small choices by name
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from "idb";
import type { DraftEdit } from "../core/api.ts";
import type { Step } from "./step.ts";

/** Beside which record this one was kept, since the two differed. */
export interface Split {
  of: string;
  why: "tab" | "backup" | "received";
}

/** How a drawing came about by hand: the edits of each tap, on what it began with. */
export interface Drawn {
  /** A document, before the first step. */
  base: string;
  steps: DraftEdit[][];
}

export interface SavedPanel {
  id: string;
  title: string;
  /** The document as it was written; only the core reads it. */
  text: string;
  added: string;
  /** Counts the saves: whoever saves says which one he started from. */
  version: number;
  changed: string;
  /**
   * The states this panel was handed over or received as, newest last, by their
   * edition: what a copy of it is known by. Of each the text is among its versions.
   */
  editions?: string[];
  /** Absent where the drawing came whole, from a file. */
  drawn?: Drawn;
  split?: Split;
}

/** As many as a document may list (core/panel, MaxEditions). */
export const EDITIONS_KEPT = 20;

export interface SavedVersion {
  panel: string;
  version: number;
  title: string;
  text: string;
  saved: string;
  /** Where this state was handed over or received. */
  edition?: string;
}

export interface SavedJob {
  id: string;
  panel: string;
  title: string;
  started: string;
  split?: Split;
}

export interface SavedStep {
  job: string;
  seq: number;
  when: string;
  step: Step;
}

/** The record is the drill's own; it is kept as it was handed over. */
export interface SavedDrill {
  id: string;
  panel: string;
  title: string;
  started: string;
  record: unknown;
  split?: Split;
}

/** What a note or a photo belongs to: a panel, within it perhaps a job or a thing. */
export interface Owner {
  panel: string;
  /** A job's id, or "" for the panel itself. */
  job: string;
  /** A block, part or wire, or "". */
  thing: string;
}

export interface SavedNote extends Owner {
  id: string;
  text: string;
  when: string;
  split?: Split;
}

/** A numbered mark on a photo: where, in thousandths of its width and height. */
export interface Mark {
  x: number;
  y: number;
  /** The terminal it names, or "". */
  terminal: string;
}

export interface SavedPhoto extends Owner {
  id: string;
  when: string;
  image: string;
  width: number;
  height: number;
  bytes: number;
  marks: Mark[];
  preview: Blob;
  split?: Split;
}

export interface SavedImage {
  id: string;
  data: Blob;
}

/** The record of a job done elsewhere, as its document came. */
export interface SavedPaper {
  id: string;
  panel: string;
  title: string;
  document: string;
  received: string;
  /** When somebody said on this phone that what it left in place is back as it was. */
  back?: string;
  split?: Split;
}

/** A document that was received: nothing of it counts before the person says so. */
export interface SavedArrival {
  id: string;
  /** What it came as: a file's name, or "". */
  name: string;
  /** As the core said when it came: "panel", "drill" or "job". */
  kind: string;
  title: string;
  text: string;
  received: string;
  /** The panel that it was opened for, or "". */
  panel: string;
  split?: Split;
}

/** The kinds of things that can be put away, and the store each is in. */
export const storeOf = {
  panel: "panels",
  job: "jobs",
  drill: "drills",
  note: "notes",
  photo: "photos",
  paper: "papers",
  arrival: "arrivals",
} as const;
export type Kind = keyof typeof storeOf;

export interface Trashed {
  kind: Kind;
  id: string;
  title: string;
  when: string;
}

export interface Schema extends DBSchema {
  panels: { key: string; value: SavedPanel };
  versions: { key: [string, number]; value: SavedVersion };
  jobs: { key: string; value: SavedJob; indexes: { panel: string } };
  steps: { key: [string, number]; value: SavedStep };
  drills: { key: string; value: SavedDrill; indexes: { panel: string } };
  notes: { key: string; value: SavedNote; indexes: { panel: string } };
  photos: { key: string; value: SavedPhoto; indexes: { panel: string } };
  images: { key: string; value: SavedImage };
  papers: { key: string; value: SavedPaper; indexes: { panel: string } };
  arrivals: { key: string; value: SavedArrival };
  trash: { key: [Kind, string]; value: Trashed };
  settings: { key: string; value: string };
}

export type Store = StoreNames<Schema>;
export type Database = IDBPDatabase<Schema>;
export type Upgrade = IDBPTransaction<Schema, Store[], "versionchange">;
export type Writing = IDBPTransaction<Schema, Store[], "readwrite">;
export type Reading = IDBPTransaction<Schema, Store[], "readonly">;

/** Every record of a numbered kind that belongs to one id. */
export const allOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, 0], [id, Infinity]);
