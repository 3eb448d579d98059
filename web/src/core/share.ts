// Typed questions about documents that go from phone to phone.
import type { Diff, Merge, Packed, Record as JobRecord, Unpacked } from "./api.ts";
import { ask, Refused, type Source } from "./ask.ts";
import { workshop } from "./core.ts";

/**
 * Size is the most characters a code may hold; of 0 there are no codes. Editions
 * are the states it was handed over in before. Errors: Refused.
 */
export function pack(source: Source & { editions?: string[] }, size: number, signal?: AbortSignal): Promise<Packed> {
  return ask(workshop, { op: "pack", ...source, size }, "packed", signal);
}

/** As unpack, of codes also before all are there: then there is no document. */
export function gather(text: string, name = "", signal?: AbortSignal): Promise<Unpacked> {
  return ask(workshop, { op: "unpack", text, name }, "unpacked", signal);
}

/** Reads a document, a link, or the texts of codes, one a line, none missing. Errors: Refused. */
export async function unpack(text: string, name = ""): Promise<Unpacked> {
  const unpacked = await gather(text, name);
  if (unpacked.document === "") throw new Refused({ ...unpacked.text, hint: "" });
  return unpacked;
}

/** In what the other is not like the one. Errors: Refused. */
export function diff(text: string, other: string, signal?: AbortSignal): Promise<Diff> {
  return ask(workshop, { op: "diff", text, other }, "diff", signal);
}

/** Two copies of one document; base is what both came from, or "". Errors: Refused. */
export function merge(copies: Copies, choices: Readonly<Record<string, string>>, signal?: AbortSignal): Promise<Merge> {
  const { base, ours, theirs } = copies;
  return ask(workshop, { op: "merge", base, text: ours, other: theirs, choices: { ...choices } }, "merge", signal);
}

export interface Copies {
  base: string;
  ours: string;
  theirs: string;
}

/** The lines of a record, as a screen shows them. Errors: Refused. */
export function readRecord(text: string): Promise<JobRecord> {
  return ask(workshop, { op: "record", text, as: "text" }, "record");
}
