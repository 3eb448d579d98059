import assert from "node:assert/strict";
import { test } from "node:test";
import type { Panel } from "../core/api.ts";
import type { SavedJob, SavedPhoto, SavedStep } from "../store/schema.ts";
import { readStep, type Step } from "../store/step.ts";
import { documentOf } from "./document.ts";
import { minutesBetween, wallTime } from "./moment.ts";

const saved: SavedJob = { id: "job-1", panel: "file:a", title: "Pump house", started: "2026-03-01T06:00:00.000Z" };
const at = (minute: number): string => `2026-03-01T06:${String(minute).padStart(2, "0")}:00.000Z`;
const kept = (steps: Step[]): SavedStep[] => steps.map((step, seq) => ({ job: "job-1", seq, when: at(seq), step }));
const undo: Step = { kind: "undo" };
const panel: Panel = {
  format: "halfsplit-panel",
  version: 1,
  name: "Pump house",
  parts: [{ ref: "B1", tag: "PT-1", kind: "lamp" }],
  found: [
    { op: "move-wire", wire: "W1", end: "to", point: "X1:3", when: at(2) },
    { op: "remove-wire", wire: "W9", when: at(30) },
  ],
};
const nothing = { saved, panel: null, notes: [], photos: [] };

const whole: Step[] = [
  { kind: "condition", at: "normal" },
  { kind: "saw", ref: "B1", sight: "dead" },
  { kind: "saw", ref: "B2", sight: "works" },
  {
    kind: "reading",
    reading: { mode: "vdc", red: "X1:2/out", black: "X2:1", value: 0.02, shown: "0.02 V", at: "press S2" },
    expected: "24.00 V",
    why: "2 places are still likely.",
  },
  { kind: "reading", reading: { mode: "ohms", red: "X1:2/in", black: "X1:2/out", value: 4700, at: "power-off" } },
  { kind: "reading", reading: { mode: "vdc", red: "X1:9", black: "X2:9", value: 1 } },
  undo,
  { kind: "look", look: { ref: "X1:2", state: "lit" }, shown: "lit up", expected: "dark" },
  { kind: "temporary", change: "jumper", where: "X1:4 to X1:9", back: false },
  { kind: "temporary", change: "lifted", where: "W4@X1:4", back: false },
  { kind: "temporary", change: "lifted", where: "W4@X1:4", back: true },
  { kind: "condition", at: "stopped" },
  { kind: "repaired", place: "X1:2", repair: "fit a fuse", faults: ["X1:2=fuse-blown"], names: ["the fuse of X1:2 has blown"] },
  { kind: "cause", faults: ["X1:2=fuse-blown"], place: "X1:2", text: "water in the box" },
  { kind: "done", text: "box dried, fuse replaced" },
  { kind: "check", line: "function", text: "B1 works again", done: true },
  { kind: "check", line: "covers", text: "Covers on", done: true },
  { kind: "check", line: "covers", text: "Covers on", done: false },
  { kind: "who", name: "K." },
  { kind: "minutes", minutes: 25 },
  { kind: "complaint", text: "pressure shows zero" },
];

test("all that was done in a job is in its document, and what was undone is not", () => {
  const job = documentOf({ ...nothing, entries: kept(whole), panel });
  assert.equal(job.title, "PT-1 B1 dead");
  assert.equal(job.complaint, "pressure shows zero");
  assert.deepEqual([job.started, job.ended], [wallTime(saved.started), wallTime(at(20))]);
  assert.deepEqual([job.who, job.minutes, job.at], ["K.", 25, "stopped"]);
  assert.deepEqual([job.dead, job.works], [["B1"], ["B2"]]);
  assert.deepEqual(job.steps, [
    {
      when: wallTime(at(3)),
      kind: "reading",
      mode: "vdc",
      red: "X1:2/out",
      black: "X2:1",
      with: "press S2",
      shown: "0.02 V",
      expected: "24.00 V",
      why: "2 places are still likely.",
    },
    { when: wallTime(at(4)), kind: "reading", mode: "ohms", red: "X1:2/in", black: "X1:2/out", with: "power-off", shown: "4700 Ω" },
    { when: wallTime(at(7)), kind: "look", ref: "X1:2", shown: "lit up", expected: "dark" },
    { when: wallTime(at(11)), kind: "work", text: "Plant state: stopped" },
    { when: wallTime(at(12)), kind: "work", text: "Repaired at X1:2: fit a fuse" },
  ]);
  assert.deepEqual(job.cause, { faults: ["X1:2=fuse-blown"], place: "X1:2", text: "water in the box" });
  assert.equal(job.repair, "box dried, fuse replaced");
  assert.deepEqual(job.temporary, [
    { what: "jumper", where: "X1:4 to X1:9", placed: wallTime(at(8)) },
    { what: "lifted", where: "W4@X1:4", placed: wallTime(at(9)), back: wallTime(at(10)) },
  ]);
  assert.deepEqual(
    job.checks?.map(({ text, done }) => [text, done ?? "open"]),
    [
      ["B1 works again", wallTime(at(15))],
      ["Everything on the same fuse checked", "open"],
      ["Temporary links out, lifted wires back", "open"],
      ["Levers and blades closed", "open"],
      ["Covers on", "open"],
      ["Note written: what was wrong and what was done", "open"],
    ],
  );
});

test("corrections after the repair are the panel as left, those before it as found", () => {
  const job = documentOf({ ...nothing, entries: kept(whole), panel });
  assert.deepEqual(job.panel?.found?.map(({ wire }) => wire), ["W1"]);
  assert.deepEqual(job.left?.map(({ wire }) => wire), ["W9"]);
  const open = documentOf({ ...nothing, entries: kept(whole.slice(0, 4)), panel });
  assert.deepEqual([open.panel?.found?.length, open.left, open.ended, open.checks], [2, undefined, undefined, []]);
});

test("a repair that was noted without another word is the cause", () => {
  const job = documentOf({ ...nothing, entries: kept(whole.slice(0, 13)) });
  assert.deepEqual(job.cause, { faults: ["X1:2=fuse-blown"], place: "X1:2", text: "the fuse of X1:2 has blown" });
  assert.equal(job.repair, "fit a fuse");
  const old = documentOf({ ...nothing, entries: kept([{ kind: "repaired", place: "X1:2", repair: "fit a fuse" }]) });
  assert.equal(old.cause, undefined);
  assert.equal(old.title, "Pump house");
});

test("a job that makes things dead is told by its ticks", () => {
  const job = documentOf({
    ...nothing,
    entries: kept([
      { kind: "condition", at: "normal" },
      { kind: "isolate", refs: ["M1", "X4"] },
      { kind: "tick", line: "Q1 open and locked", done: true },
      { kind: "tick", line: "tester proved", done: true },
      { kind: "tick", line: "tester proved", done: false },
    ]),
  });
  assert.equal(job.title, "Isolate M1, X4");
  assert.deepEqual(job.checks, [{ text: "Q1 open and locked", done: wallTime(at(2)) }, { text: "tester proved" }]);
});

test("notes and photos of the job go along, photos by when they were taken", () => {
  const owner = { panel: "file:a", job: "job-1" };
  const photo = (minute: number): SavedPhoto => ({
    ...owner,
    id: `p${minute}`,
    thing: "X1:2",
    when: at(minute),
    image: "i",
    width: 1,
    height: 1,
    bytes: 1,
    marks: [{ x: 1, y: 1, terminal: "X1:2/out" }],
    preview: new Blob(),
  });
  const job = documentOf({
    ...nothing,
    entries: kept(whole),
    notes: [{ ...owner, id: "n", thing: "X1", text: "spare fuses in the door", when: at(5) }],
    photos: [photo(1), photo(40)],
  });
  assert.deepEqual(job.notes, [{ when: wallTime(at(5)), text: "X1: spare fuses in the door" }]);
  assert.deepEqual(job.photos, [
    { name: wallTime(at(1)), of: "found", about: "X1:2, X1:2/out" },
    { name: wallTime(at(40)), of: "left", about: "X1:2, X1:2/out" },
  ]);
});

test("steps that were kept before records were are read as they are", () => {
  const old = [
    { kind: "reading", reading: { mode: "vdc", red: "A:1", black: "A:2", value: 1 } },
    { kind: "look", look: { ref: "P1", state: "lit" }, shown: "lit" },
    { kind: "repaired", place: "X1:4", repair: "tighten" },
    { kind: "temporary", change: "jumper", where: "X1:1", back: false },
  ];
  for (const step of old) assert.deepEqual(readStep(step), step);
});

test("minutes are those between steps, without the pauses", () => {
  // By hand: 5 + 30 count, 31 and the step back in time do not.
  const times = ["06:00", "06:05", "06:35", "07:06", "07:00"].map((time) => `2026-03-01T${time}:00.000Z`);
  assert.equal(minutesBetween(times), 35);
  assert.equal(minutesBetween(times.slice(0, 1)), 1);
  assert.equal(minutesBetween([]), 0);
});

test("a time of the wall is the same moment", () => {
  for (const iso of ["2026-03-01T06:00:07.000Z", "2026-07-01T23:59:59.000Z"]) {
    assert.match(wallTime(iso), /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)$/);
    assert.equal(Date.parse(wallTime(iso)), Date.parse(iso));
  }
  assert.equal(wallTime("yesterday"), "yesterday");
});
