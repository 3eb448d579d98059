// What has been read so far. The core says what a text is; here the codes of a
// set are kept until it is whole.
import type { Unpacked } from "../core/api.ts";
import { Refused } from "../core/ask.ts";

/** What a code turned out to be. Aside is how many codes of other sets have been read. */
export type Found =
  | { kind: "whole" | "part"; state: Unpacked; aside: number }
  /** Of something else; the text is what it says. */
  | { kind: "foreign"; text: string }
  | { kind: "refused"; error: Refused };

export class Gathering {
  readonly #gather: (text: string) => Promise<Unpacked>;
  readonly #seen = new Set<string>();
  /** Codes that belong together; the set read from last comes first. */
  #sets: string[][] = [];

  constructor(gather: (text: string) => Promise<Unpacked>) {
    this.#gather = gather;
  }

  /** Null for a text that was seen before. */
  async take(text: string): Promise<Found | null> {
    if (this.#seen.has(text)) return null;
    this.#seen.add(text);
    try {
      const alone = await this.#gather(text);
      return alone.document === "" ? await this.#add(text) : { kind: "whole", state: alone, aside: this.#sets.flat().length };
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (error.refusal.code === "share.not-packed" || error.refusal.code === "share.nothing") return { kind: "foreign", text };
      return { kind: "refused", error };
    }
  }

  /** To the set it belongs to, or as the first of a new one. */
  async #add(text: string): Promise<Found> {
    for (const set of [...this.#sets, []]) {
      const state = await this.#gather([...set, text].join("\n"));
      if (state.foreign > 0) continue;
      const others = this.#sets.filter((other) => other !== set);
      this.#sets = [[...set, text], ...others];
      return { kind: state.document === "" ? "part" : "whole", state, aside: others.flat().length };
    }
    throw new Error("a code does not go with itself");
  }
}
