// Typed questions about what goes from phone to phone.
import type { Packed, Unpacked } from "./api.ts";
import { ask, type Source } from "./ask.ts";
import { workshop } from "./core.ts";

/** Size is the most characters a code may hold; of 0 there are no codes. */
export function pack(source: Source, size: number, signal?: AbortSignal): Promise<Packed> {
  return ask(workshop, { op: "pack", ...source, size }, "packed", signal);
}

/** A document, a link, or the texts of codes, one a line. */
export function unpack(text: string, signal?: AbortSignal): Promise<Unpacked> {
  return ask(workshop, { op: "unpack", text }, "unpacked", signal);
}
