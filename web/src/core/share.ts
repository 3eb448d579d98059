// Typed questions about documents that go from phone to phone.
import type { Unpacked } from "./api.ts";
import { ask, Refused } from "./ask.ts";
import { workshop } from "./core.ts";

/** Reads a document, a link, or the texts of codes, one a line, none missing. Errors: Refused. */
export async function unpack(text: string, name = ""): Promise<Unpacked> {
  const unpacked = await ask(workshop, { op: "unpack", text, name }, "unpacked");
  if (unpacked.document === "") throw new Refused({ ...unpacked.text, hint: "" });
  return unpacked;
}
