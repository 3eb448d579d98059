import assert from "node:assert/strict";
import { test } from "node:test";
import { alike, digest, panelHas, stepsToAdd } from "./merge.ts";
import type { SavedPanel, SavedStep, SavedVersion } from "./schema.ts";

/** A panel whose drawings were these texts, the last of them now. */
function chain(...texts: string[]): { panel: SavedPanel; versions: SavedVersion[] } {
  const versions = texts.map((text, i) => ({ panel: "p", version: i + 1, title: "P", text, saved: "" }));
  const now = versions.pop();
  if (!now) throw new Error("a panel has a drawing");
  return { panel: { id: "p", title: "P", text: now.text, version: now.version, added: "", changed: "" }, versions };
}

test("a panel has another if it is the same one, at the same age or older", () => {
  assert.ok(panelHas(chain("a"), chain("a")));
  assert.ok(panelHas(chain("a", "b", "c"), chain("a")));
  assert.ok(panelHas(chain("a", "b", "c"), chain("a", "b")));
  assert.ok(!panelHas(chain("a"), chain("b")));
  assert.ok(!panelHas(chain("a"), chain("a", "b")), "the other is newer");
  assert.ok(!panelHas(chain("a", "b"), chain("a", "c")), "they parted");
  assert.ok(!panelHas(chain("a", "b", "d"), chain("x", "b")), "they parted earlier and met again");
});

test("a drawing whose own version was thinned out here is not taken as known", () => {
  const ours = chain("a", "b", "c");
  ours.versions.splice(1, 1);
  assert.ok(!panelHas(ours, chain("a", "b")));
});

test("steps are gone on with where one list goes on from the other", () => {
  const step = (seq: number, ref: string): SavedStep => ({ job: "j", seq, when: "", step: { kind: "saw", ref, sight: "dead" } });
  const [a, b, c] = [step(0, "B1"), step(1, "B2"), step(1, "B3")];
  assert.deepEqual(stepsToAdd([a], [a, b]), [b]);
  assert.deepEqual(stepsToAdd([a, b], [a]), []);
  assert.deepEqual(stepsToAdd([], [a]), [a]);
  assert.equal(stepsToAdd([a, b], [a, c]), null);
});

test("alike is by content, and digests differ where content does", () => {
  assert.ok(alike({ a: 1, b: [{ c: null }] }, { b: [{ c: null }], a: 1 }));
  for (const [a, b] of [
    [{ a: 1 }, { a: 1, b: undefined }],
    [[1], { 0: 1 }],
    [{ a: null }, { a: {} }],
    [{ toString: 1 }, {}],
  ] as const) {
    assert.ok(!alike(a, b) && !alike(b, a), JSON.stringify([a, b]));
  }
  assert.match(digest(7), /^[0-9a-f]{16}$/);
  assert.notEqual(digest({ text: "ab" }), digest({ text: "ba" }));
});
