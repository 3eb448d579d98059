// What has been read so far. The core says what a text is; here the codes of a
// set are kept until it is whole.
import type { Unpacked } from "../core/api.ts";
import { Refused } from "../core/ask.ts";

/** What a code turned out to be. */
export type Found =
  | { kind: "whole" | "part"; state: Unpacked }
  /** Of something else; the text is what it says. */
  | { kind: "foreign"; text: string }
  | { kind: "refused"; error: Refused };

export class Gathering {
  readonly #unpack: (text: string) => Promise<Unpacked>;
  readonly #seen = new Set<string>();
  readonly #parts: string[] = [];

  constructor(unpack: (text: string) => Promise<Unpacked>) {
    this.#unpack = unpack;
  }

  /** Null for a text that was seen before. */
  async take(text: string): Promise<Found | null> {
    if (this.#seen.has(text)) return null;
    this.#seen.add(text);
    try {
      const alone = await this.#unpack(text);
      if (alone.document !== "") return { kind: "whole", state: alone };
      this.#parts.push(text);
      const state = await this.#unpack(this.#parts.join("\n"));
      return { kind: state.document === "" ? "part" : "whole", state };
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (error.refusal.code === "share.not-packed" || error.refusal.code === "share.nothing") return { kind: "foreign", text };
      return { kind: "refused", error };
    }
  }
}
