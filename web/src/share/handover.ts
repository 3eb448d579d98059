// What is handed over, in every form it can take: the document itself, a link,
// the texts of codes. All come from what the core packed, so they are the same.
import { Refused, type Source } from "../core/ask.ts";
import { pack, unpack } from "../core/share.ts";
import { sourceOf } from "../panel/sessions.ts";
import { jobDocument } from "../record/gather.ts";
import { getAttempt } from "../store/drills.ts";
import { getJob } from "../store/jobs.ts";
import { getPanel, handedOver } from "../store/panels.ts";
import { getPaper } from "../store/papers.ts";
import { say } from "../words.ts";

type Kind = "panel" | "drill" | "job";

/** What of this phone is handed over; a paper is the record of a job that was done elsewhere. */
export type Given = Kind | "paper";

export interface HandOver {
  kind: Kind;
  name: string;
  document: string;
  /** Packed, in bytes. */
  bytes: number;
  /** A whole address, or "" where it is longer than messages carry. */
  link: string;
  /** How long the link is or would be. */
  linkLength: number;
  /** None where it is too large for codes. */
  parts: string[];
}

/**
 * Characters of one code, the alphanumeric capacity at error correction M of
 * versions 15, 9 and 20. Source: ISO/IEC 18004, table of capacities. That a phone
 * reads version 15 easily off another's screen is common practice; the others are
 * for weak cameras, and for what would be more codes than there may be.
 */
const sizes = { usual: 600, coarse: 262, fine: 970 } as const;

/** Mail and messages cut or refuse links somewhat above this. A choice. */
const MAX_LINK = 2000;

/** A panel of this phone is known again by the states it was handed over in. */
export type Handed = Source & { editions?: string[]; of?: { panel: string; text: string } };

async function lineage(panel: string): Promise<Pick<Handed, "editions" | "of">> {
  const saved = await getPanel(panel);
  return saved ? { editions: saved.editions ?? [], of: { panel, text: saved.text } } : {};
}

/** Where a thing of this phone is read from. */
export async function sourceFor(kind: Given, id: string): Promise<Handed> {
  if (kind === "panel") return { ...(await sourceOf(id)), ...(await lineage(id)) };
  if (kind === "job") {
    const text = `${JSON.stringify(await jobDocument(id), null, 2)}\n`;
    return { name: "", text, ...(await lineage((await getJob(id))?.panel ?? "")) };
  }
  if (kind === "paper") {
    const paper = await getPaper(id); // handed on as it came
    if (paper) return { name: paper.title, text: paper.document };
    throw new Error(say("page.nothing-to-hand-over"));
  }
  const attempt = await getAttempt(id);
  if (attempt?.attempt.text) return { name: attempt.title, text: attempt.attempt.text };
  throw new Error(say("page.nothing-to-hand-over"));
}

export async function handOver({ of, ...given }: Handed, coarse: boolean, signal?: AbortSignal): Promise<HandOver> {
  const edition = of ? (await unpack(of.text)).edition : "";
  // A job names the state its panel is in, beside those before it.
  const source = of && "text" in given && given.text !== of.text ? { ...given, editions: [...(given.editions ?? []), edition] } : given;
  const packed = (await packedAs(source, coarse ? sizes.coarse : sizes.usual, signal)) ??
    (await packedAs(source, sizes.fine, signal)) ?? { ...(await pack(source, 0, signal)), parts: [] };
  const { document, name, kind } = await unpack(packed.link);
  if (of) await handedOver(of.panel, of.text, edition);
  const link = `${location.origin}${location.pathname}#/open/${packed.link}`;
  return {
    kind: kind as Kind,
    name,
    document,
    bytes: packed.bytes,
    link: link.length > MAX_LINK ? "" : link,
    linkLength: link.length,
    parts: packed.parts,
  };
}

/** Null where that would be too many codes. */
async function packedAs(source: Parameters<typeof pack>[0], size: number, signal?: AbortSignal) {
  try {
    return await pack(source, size, signal);
  } catch (error) {
    if (error instanceof Refused && error.refusal.code === "share.too-many-parts") return null;
    throw error;
  }
}

/** A name that every file system takes. */
export function fileName(name: string): string {
  const plain = name.replace(/[\u0000-\u001f"*/:<>?\\|]+/g, " ").replace(/\s+/g, " ").trim().replace(/^\.+|\.+$/g, "");
  return `${plain || "halfsplit"}.halfsplit.json`;
}
