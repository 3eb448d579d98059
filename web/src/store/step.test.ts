import assert from "node:assert/strict";
import { test } from "node:test";
import { readStep, standing, type Step } from "./step.ts";

test("a step that was written is read back as it was", () => {
  const all: Step[] = [
    { kind: "saw", ref: "B3", sight: "dead" },
    { kind: "reading", text: "vdc X1:3/out X1:9 24.1@normal" },
    { kind: "skipped", what: "vdc X1:3/out X1:9" },
    { kind: "condition", at: "normal; press S2" },
    { kind: "repaired", place: "X1:4/out", repair: "tighten" },
    { kind: "undo" },
  ];
  for (const step of all) assert.deepEqual(readStep(JSON.parse(JSON.stringify(step))), step);
});

test("what is unknown or half there is left out, not guessed", () => {
  const bad: unknown[] = [
    null,
    7,
    "saw",
    [],
    {},
    { kind: "saw" },
    { kind: "saw", ref: "", sight: "dead" },
    { kind: "saw", ref: "B3", sight: "asleep" },
    { kind: "reading", text: 24.1 },
    { kind: "reading" },
    { kind: "repaired", place: "X1:4" },
    { kind: "from a later version", text: "x" },
  ];
  for (const value of bad) assert.equal(readStep(value), null, JSON.stringify(value));
});

test("an undo takes back one step, two take back two, and none is left over", () => {
  const a: Step = { kind: "saw", ref: "B1", sight: "dead" };
  const b: Step = { kind: "saw", ref: "B2", sight: "works" };
  const c: Step = { kind: "reading", text: "vdc A B 0" };
  const undo: Step = { kind: "undo" };
  assert.deepEqual(standing([a, b, undo]), [a]);
  assert.deepEqual(standing([a, b, undo, undo, undo, c]), [c]);
  assert.deepEqual(standing([a, undo, b]), [b]);
});
