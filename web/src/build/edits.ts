// What a tap says to the core. The page fills in the fields and knows no kinds.
import type { Candidate, DraftEdit } from "../core/api.ts";

/** The fields of a part as it was guessed; the empty ones are the core's to choose. */
function described({ kind, tag, label, at, ratings, channels }: Candidate): Omit<DraftEdit, "op"> {
  return {
    kind,
    ...(tag && { tag }),
    ...(label && { label }),
    ...(at && { at }),
    ...(Object.keys(ratings).length > 0 && { ratings }),
    ...(channels > 0 && { channels }),
  };
}

export const part = (candidate: Candidate): DraftEdit => ({
  op: "part",
  ...described(candidate),
  ...(candidate.ref && { ref: candidate.ref }),
});

/** A part that sits in a wire. */
export const between = (wire: string, candidate: Candidate): DraftEdit => ({
  op: "between",
  ...described(candidate),
  ref: wire,
  ...(candidate.ref && { name: candidate.ref }),
});

export const otherKind = (ref: string, candidate: Candidate): DraftEdit => ({ op: "set", ...described(candidate), ref });

/** Some neighbouring blocks of a strip. */
export interface Range {
  ref: string;
  from: string;
  to: string;
}

export const blocks = (range: Range, { kind, fuse }: Candidate): DraftEdit => ({
  op: "blocks",
  ...range,
  kind,
  ...(fuse && { fuse }),
});

/** A text that is written on a thing; an empty one is taken away. */
export const field = (ref: string, name: "tag" | "colour" | "cable" | "core" | "size" | "length", text: string): DraftEdit =>
  text === "" ? { op: "set", ref, clear: [name] } : { op: "set", ref, [name]: text };
