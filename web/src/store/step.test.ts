import assert from "node:assert/strict";
import { test } from "node:test";
import { account, observations, readStep, standing, type Step } from "./step.ts";

const volts: Step = { kind: "reading", reading: { mode: "vdc", red: "X1:3/out", black: "X1:9", value: 24.1 } };
const open: Step = {
  kind: "reading",
  reading: { mode: "vdc", red: "X1:3/out", black: "X1:9", value: null, shown: "OL", at: "normal" },
};
const dead = (ref: string): Step => ({ kind: "saw", ref, sight: "dead" });
const undo: Step = { kind: "undo" };

test("a step that was written is read back as it was", () => {
  const all: Step[] = [
    dead("B3"),
    volts,
    open,
    { kind: "condition", at: "normal; press S2" },
    { kind: "repaired", place: "X1:4/out", repair: "tighten" },
    { kind: "look", look: { ref: "X3:2", state: "dark" }, shown: "dark" },
    { kind: "look", look: { ref: "P1", state: "lit", at: "press S2" }, shown: "lit up", expected: "dark", why: "it splits" },
    { ...volts, expected: "24.00 V", why: "it splits" },
    { kind: "repaired", place: "X1:4", repair: "tighten", faults: ["W1@X1:4=loose"], names: ["W1 is loose"] },
    { kind: "temporary", change: "forced", where: "A1:3", back: false },
    { kind: "complaint", text: "<img src=x>" },
    { kind: "cause", faults: [], place: "", text: "water" },
    { kind: "done", text: "" },
    { kind: "check", line: "links", text: "Links out", done: true },
    { kind: "who", name: "" },
    { kind: "minutes", minutes: 0 },
    { kind: "settled", how: "put-back", version: 3 },
    { kind: "finished" },
    undo,
  ];
  for (const step of all) assert.deepEqual(readStep(JSON.parse(JSON.stringify(step))), step);
});

test("what is unknown or half there is left out, not guessed", () => {
  const reading = { mode: "vdc", red: "A:1", black: "A:2", value: 1 };
  const bad: unknown[] = [
    null,
    7,
    "saw",
    [],
    {},
    { kind: "saw" },
    { kind: "saw", ref: "", sight: "dead" },
    { kind: "saw", ref: "B3", sight: "asleep" },
    { kind: "reading" },
    { kind: "reading", reading: 24.1 },
    { kind: "reading", reading: { ...reading, mode: undefined } },
    { kind: "reading", reading: { ...reading, value: "1" } },
    { kind: "reading", reading: { ...reading, value: null } },
    { kind: "reading", reading: { ...reading, value: NaN } },
    { kind: "repaired", place: "X1:4" },
    { kind: "look", look: { ref: "X3:2" } },
    { kind: "look", look: "dark" },
    { kind: "from a later version", text: "x" },
    { kind: "cause", faults: [7], place: 1 },
    { kind: "check", line: "elsewhere", text: "x", done: true },
    { kind: "check", line: "links", done: true },
    { kind: "who" },
    { kind: "minutes", minutes: 1.5 },
    { kind: "minutes", minutes: -1 },
    { kind: "settled", how: "burnt", version: 1 },
    { kind: "settled", how: "adopted" },
  ];
  for (const value of bad) assert.equal(readStep(value), null, JSON.stringify(value));
});

test("an undo takes back one step, two take back two, and none is left over", () => {
  assert.deepEqual(standing([dead("B1"), dead("B2"), undo]), [dead("B1")]);
  assert.deepEqual(standing([dead("B1"), dead("B2"), undo, undo, undo, volts]), [volts]);
  assert.deepEqual(standing([dead("B1"), undo, volts]), [volts]);
});

test("what was said last of a device counts, and taking it back leaves nothing", () => {
  const steps: Step[] = [
    { kind: "condition", at: "normal" },
    dead("B1"),
    dead("B2"),
    { kind: "saw", ref: "B1", sight: "works" },
    { kind: "saw", ref: "B2", sight: "unsaid" },
    dead("B3"),
    volts,
  ];
  const sum = account(steps);
  assert.equal(sum.at, "normal");
  assert.deepEqual(observations(sum), {
    dead: ["B3"],
    works: ["B1"],
    sees: [],
    readings: [volts.kind === "reading" && volts.reading],
  });
  assert.deepEqual(observations(account([...steps, undo, undo])), { dead: [], works: ["B1"], sees: [], readings: [] });
});

test("isolating has an end, which goes with undo and with whatever is done after it", () => {
  const tick: Step = { kind: "tick", line: "Q1 open and locked", done: true };
  const jumper = (back: boolean): Step => ({ kind: "temporary", change: "jumper", where: "X1:1", back });
  const job: Step[] = [{ kind: "isolate", refs: ["M1"] }, tick, jumper(false)];
  const finished = (...more: Step[]): boolean => account([...job, ...more]).finished;
  assert.equal(finished(), false);
  assert.equal(finished({ kind: "finished" }), true);
  assert.equal(finished({ kind: "finished" }, undo), false);
  assert.equal(finished({ kind: "finished" }, { ...tick, done: false }), false);
  assert.equal(finished({ kind: "finished" }, { kind: "temporary", change: "lifted", where: "W1", back: false }), false);
  // Putting back what was left is no new work.
  assert.equal(finished({ kind: "finished" }, jumper(true)), true);
});
