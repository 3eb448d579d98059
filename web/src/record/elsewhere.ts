// What a record from elsewhere says, in the few words that a list has room for.
// The core read it when it came; here it is read again and never trusted.
import { names } from "../store/closing.ts";
import type { SavedPaper } from "../store/schema.ts";
import { temporaries } from "../store/step.ts";
import { say } from "../words.ts";

export interface Told {
  symptom: string;
  cause: string;
  /** By canonical name. */
  faults: string[];
  /** As its phone's clock said; empty where it does not say. */
  started: string;
  ended: string;
  /** What it left in place, in words; none once somebody has said here that it is back. */
  open: string[];
}

export function toldBy({ document, title, back: since }: Pick<SavedPaper, "document" | "title" | "back">): Told {
  const job = object(parsed(document));
  const cause = object(job["cause"]);
  const temporary = Array.isArray(job["temporary"]) ? job["temporary"].map(object) : [];
  return {
    symptom: text(job["complaint"]) || text(job["title"]) || title,
    cause: text(cause["text"]) || text(cause["place"]),
    faults: names(cause["faults"]),
    started: text(job["started"]),
    ended: text(job["ended"]),
    open: since ? [] : temporary.filter(({ back }) => text(back) === "").map(inPlace),
  };
}

function inPlace({ what, where }: Record<string, unknown>): string {
  const known = temporaries.find((one) => one === what);
  return known ? say(`page.temporary-${known}`, { where: text(where) }) : text(where);
}

function parsed(document: string): unknown {
  try {
    return JSON.parse(document);
  } catch {
    return null;
  }
}

const object = (value: unknown): Record<string, unknown> =>
  typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};

const text = (value: unknown): string => (typeof value === "string" ? value : "");
