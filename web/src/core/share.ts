// Typed questions about documents that go from phone to phone.
import type { Packed, Unpacked } from "./api.ts";
import { ask, Refused, type Source } from "./ask.ts";
import { workshop } from "./core.ts";

/** Size is the most characters a code may hold; of 0 there are no codes. Errors: Refused. */
export function pack(source: Source, size: number, signal?: AbortSignal): Promise<Packed> {
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
