// Reads records that come from a file: what is half there or of a kind this
// page does not know is left out, and nothing is guessed.
import type { DraftEdit } from "../core/api.ts";
import type {
  Drawn,
  Mark,
  Owner,
  SavedArrival,
  SavedDrill,
  SavedJob,
  SavedNote,
  SavedPanel,
  SavedPaper,
  SavedStep,
  SavedVersion,
  Split,
  Trashed,
} from "./schema.ts";
import { EDITIONS_KEPT, storeOf, type Kind, type SavedPhoto } from "./schema.ts";
import { readStep } from "./step.ts";

/** A photo as a file carries it: the preview in base64 like the pictures. */
export type WrittenPhoto = Omit<SavedPhoto, "preview"> & { preview: string };

export interface WrittenImage {
  id: string;
  type: string;
  base64: string;
}

export interface WrittenSetting {
  name: string;
  value: string;
}

export const readers = {
  panels: readPanel,
  versions: readVersion,
  jobs: readJob,
  steps: readSavedStep,
  drills: readDrill,
  notes: readNote,
  photos: readPhoto,
  papers: readPaper,
  arrivals: readArrival,
  trash: readTrashed,
  settings: readSetting,
  images: readImage,
} as const;

function readPanel(value: unknown): SavedPanel | null {
  const { text, number } = fields(value);
  const [id, title, document, added] = [text("id"), text("title"), text("text"), text("added")];
  if (!id || title === null || !document || !added) return null;
  const version = number("version") ?? 1;
  const changed = text("changed") ?? added;
  return { id, title, text: document, added, version, changed, ...readEditions(value), ...readDrawn(value), ...readSplit(value) };
}

function readEditions(value: unknown): { editions?: string[] } {
  const list = fields(value).raw("editions");
  if (!Array.isArray(list)) return {};
  return { editions: list.filter((edition) => typeof edition === "string").slice(-EDITIONS_KEPT) };
}

/** Edits are the core's to judge: it refuses what it cannot carry out. */
function readDrawn(value: unknown): { drawn?: Drawn } {
  const { text, raw } = fields(fields(value).raw("drawn"));
  const [base, steps] = [text("base"), raw("steps")];
  const sound = (step: unknown): step is DraftEdit[] => Array.isArray(step) && step.every((edit) => fields(edit).text("op") !== null);
  return base !== null && Array.isArray(steps) && steps.every(sound) ? { drawn: { base, steps } } : {};
}

function readVersion(value: unknown): SavedVersion | null {
  const { text, number } = fields(value);
  const [panel, title, document, saved] = [text("panel"), text("title"), text("text"), text("saved")];
  const version = number("version");
  const edition = text("edition");
  if (!panel || title === null || !document || !saved || !version) return null;
  return { panel, version, title, text: document, saved, ...(edition && { edition }) };
}

function readJob(value: unknown): SavedJob | null {
  const { text } = fields(value);
  const [id, panel, title, started] = [text("id"), text("panel"), text("title"), text("started")];
  return id && panel && title !== null && started ? { id, panel, title, started, ...readSplit(value) } : null;
}

function readSavedStep(value: unknown): SavedStep | null {
  const { text, number, raw } = fields(value);
  const [job, when, seq, step] = [text("job"), text("when"), number("seq"), readStep(raw("step"))];
  return job && when && seq !== null && step ? { job, seq, when, step } : null;
}

function readDrill(value: unknown): SavedDrill | null {
  const { text, raw } = fields(value);
  const [id, panel, title, started] = [text("id"), text("panel"), text("title"), text("started")];
  if (!id || panel === null || title === null || !started) return null;
  return { id, panel, title, started, record: raw("record") ?? null, ...readSplit(value) };
}

function readNote(value: unknown): SavedNote | null {
  const { text } = fields(value);
  const [id, when, words, owner] = [text("id"), text("when"), text("text"), readOwner(value)];
  return id && when && words && owner ? { id, ...owner, text: words, when, ...readSplit(value) } : null;
}

function readPhoto(value: unknown): WrittenPhoto | null {
  const { text, number, raw } = fields(value);
  const [id, when, image, preview, owner] = [text("id"), text("when"), text("image"), text("preview"), readOwner(value)];
  const [width, height, bytes] = [number("width"), number("height"), number("bytes")];
  if (!id || !when || !image || preview === null || !owner || !width || !height || bytes === null) return null;
  const list = raw("marks");
  const marks = (Array.isArray(list) ? list : []).map(readMark).filter((mark) => mark !== null);
  return { id, ...owner, when, image, width, height, bytes, marks, preview, ...readSplit(value) };
}

function readMark(value: unknown): Mark | null {
  const { text, number } = fields(value);
  const [x, y] = [number("x"), number("y")];
  return x !== null && y !== null && x <= 1000 && y <= 1000 ? { x, y, terminal: text("terminal") ?? "" } : null;
}

function readImage(value: unknown): WrittenImage | null {
  const { text } = fields(value);
  const [id, type, base64] = [text("id"), text("type"), text("base64")];
  return id && type && /^image\/(jpeg|png|webp)$/.test(type) && base64 ? { id, type, base64 } : null;
}

function readPaper(value: unknown): SavedPaper | null {
  const { text } = fields(value);
  const [id, panel, title, document, received] = [text("id"), text("panel"), text("title"), text("document"), text("received")];
  if (!id || !panel || title === null || !document || !received) return null;
  const back = text("back");
  return { id, panel, title, document, received, ...(back && { back }), ...readSplit(value) };
}

function readArrival(value: unknown): SavedArrival | null {
  const { text } = fields(value);
  const [id, kind, title, document, received] = [text("id"), text("kind"), text("title"), text("text"), text("received")];
  if (!id || !kind || title === null || !document || !received) return null;
  const [name, panel] = [text("name") ?? "", text("panel") ?? ""];
  return { id, name, kind, title, text: document, received, panel, ...readSplit(value) };
}

function readTrashed(value: unknown): Trashed | null {
  const { text } = fields(value);
  const [kind, id, title, when] = [text("kind"), text("id"), text("title"), text("when")];
  return kind && kind in storeOf && id && title !== null && when ? { kind: kind as Kind, id, title, when } : null;
}

function readSetting(value: unknown): WrittenSetting | null {
  const { text } = fields(value);
  const [name, chosen] = [text("name"), text("value")];
  return name && chosen !== null ? { name, value: chosen } : null;
}

function readOwner(value: unknown): Owner | null {
  const { text } = fields(value);
  const panel = text("panel");
  return panel ? { panel, job: text("job") ?? "", thing: text("thing") ?? "" } : null;
}

function readSplit(value: unknown): { split?: Split } {
  const { text } = fields(fields(value).raw("split"));
  const [of, why] = [text("of"), text("why")];
  return of && (why === "tab" || why === "backup" || why === "received") ? { split: { of, why } } : {};
}

interface Fields {
  text(name: string): string | null;
  /** Not negative, not NaN, no fraction. */
  number(name: string): number | null;
  raw(name: string): unknown;
}

function fields(value: unknown): Fields {
  const record = typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};
  const raw = (name: string): unknown => (Object.hasOwn(record, name) ? record[name] : undefined);
  return {
    raw,
    text: (name) => (typeof raw(name) === "string" ? (raw(name) as string) : null),
    number: (name) => (Number.isSafeInteger(raw(name)) && (raw(name) as number) >= 0 ? (raw(name) as number) : null),
  };
}
