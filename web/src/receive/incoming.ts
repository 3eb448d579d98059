// The one way in for what comes from elsewhere: a document, a link, or the
// texts of codes. The core reads it first, and nothing of it counts as a panel, a
// record or a drill before the person has seen it and said so.
import { unpack } from "../core/share.ts";
import { addArrival } from "../store/arrivals.ts";
import { BACKUP_FORMAT } from "../store/backup.ts";
import { go } from "../ui/route.ts";

/** The largest document, as in core/panel: a larger file is refused unread. */
const MAX_BYTES = 16 << 20;

/** How much of a file shows what it is. */
const HEAD = 256;

/** A file that is refused before the core has seen it. */
export class NotTaken extends Error {
  override name = "NotTaken";
  readonly why: "too-large" | "backup";
  constructor(why: "too-large" | "backup") {
    super(why);
    this.why = why;
  }
}

/**
 * Keeps what came until it is decided, and says under which id. panel is the one
 * it was opened for, where that is known. Errors: Refused, with nothing kept.
 */
export async function receive(text: string, name: string, panel = ""): Promise<{ id: string; title: string }> {
  const { kind, name: title, document } = await unpack(text, name);
  return { id: await addArrival({ name, kind, title, text: document, panel }), title };
}

/** Takes in what came, and shows it. Errors: Refused, with nothing kept. */
export async function incoming(text: string, name: string, panel = ""): Promise<void> {
  const { id } = await receive(text, name, panel);
  go({ at: "received", id });
}

/** The text of a file that may be taken in. Errors: NotTaken. */
export async function textOf(file: File): Promise<string> {
  if ((await file.slice(0, HEAD).text()).includes(`"${BACKUP_FORMAT}"`)) throw new NotTaken("backup");
  if (file.size > MAX_BYTES) throw new NotTaken("too-large");
  return file.text();
}

/** As incoming, from a file. Errors: NotTaken as well. */
export async function incomingFile(file: File, panel = ""): Promise<void> {
  await incoming(await textOf(file), file.name, panel);
}
