import assert from "node:assert/strict";
import { test } from "node:test";
import type { Unpacked } from "../core/api.ts";
import type { Found, Gathering as Gatherings } from "./gathering.ts";

// The build puts the version in; nothing here starts a core.
Object.assign(globalThis, { __VERSION__: "test" });
const { Refused } = await import("../core/ask.ts");
const { Gathering } = await import("./gathering.ts");

/** A stand-in for the core whose codes are written "SET/INDEX/COUNT"; the first text names the set. */
async function core(text: string): Promise<Unpacked> {
  const codes = text.split("\n").map((line) => {
    const [set = "", index = "", count = ""] = line.split("/");
    if (count === "") throw new Refused({ code: "share.not-packed", text: "", hint: "", args: [] });
    if (index === "?") throw new Refused({ code: "share.parts-damaged", text: "", hint: "", args: [] });
    return { set, index: Number(index), count: Number(count) };
  });
  const [first] = codes;
  assert.ok(first);
  const have = [...new Set(codes.filter(({ set }) => set === first.set).map(({ index }) => index))].sort((a, b) => a - b);
  const missing = Array.from({ length: first.count }, (_, i) => i + 1).filter((i) => !have.includes(i));
  const document = missing.length === 0 ? first.set : "";
  const foreign = codes.filter(({ set }) => set !== first.set).length;
  const none = { kind: "", name: "", digest: "", edition: "", editions: [], panel: "", text: { code: "", text: "", args: [] } };
  return { ...none, document, count: first.count, have, missing, damaged: 0, foreign };
}

/** "have of count, aside" of each, or what else it was. */
async function take(gathering: Gatherings, texts: string[]): Promise<string[]> {
  const told = (found: Found | null): string => {
    if (!found) return "seen";
    if (!("state" in found)) return found.kind;
    return `${found.kind} ${found.state.have.length} of ${found.state.count}, ${found.aside}`;
  };
  const out: string[] = [];
  for (const text of texts) out.push(told(await gathering.take(text)));
  return out;
}

test("codes in any order, with repeats, make the whole", async () => {
  assert.deepEqual(await take(new Gathering(core), ["a/3/3", "a/1/3", "a/3/3", "a/2/3"]), [
    "part 1 of 3, 0",
    "part 2 of 3, 0",
    "seen",
    "whole 3 of 3, 0",
  ]);
});

test("what is of another set is shown as such and does not disturb the first", async () => {
  const gathering = new Gathering(core);
  assert.deepEqual(await take(gathering, ["a/1/9", "a/2/9", "b/1/2", "a/3/9", "b/2/2"]), [
    "part 1 of 9, 0",
    "part 2 of 9, 0",
    "part 1 of 2, 2",
    "part 3 of 9, 1",
    "whole 2 of 2, 3",
  ]);
});

test("a code of something else, and one that was damaged, are told apart", async () => {
  assert.deepEqual(await take(new Gathering(core), ["hello", "a/?/2", "a/1/1"]), ["foreign", "refused", "whole 1 of 1, 0"]);
});

test("any other failure is not taken for a code", async () => {
  const gathering = new Gathering(() => Promise.reject(new Error("the core stopped")));
  await assert.rejects(gathering.take("a/1/1"), /the core stopped/);
});
