import assert from "node:assert/strict";
import { test } from "node:test";
import type { BlockView, DeviceDef, Opened, PartView, WireView } from "../core/api.ts";
import { filtered, search, thingAt } from "./search.ts";

const part = (ref: string, tag: string, label: string): PartView => ({
  ref,
  tag,
  label,
  kind: "",
  kind_name: "level transmitter",
  symbol: "",
  field: true,
  process: "",
  terminals: [{ point: `${ref}:+`, wires: [] }],
  faults: [],
});
const block = (ref: string, label: string): BlockView => ({
  ref,
  no: ref.split(":")[1] ?? "",
  type: "",
  symbol: "",
  label,
  fuse: "",
  levels: [],
  faults: [],
  isolate: false,
});
const wire = (no: string, from: string, to: string): WireView => ({
  no,
  from,
  to,
  size: "",
  length: "",
  colour: "",
  cable: "C1",
  core: "",
  faults: [],
});
const opened = {
  parts: [part("B1", "LT-101", "tank level"), part("B11", "LT-1010", "")],
  strips: [{ ref: "X1", label: "24 V DC", blocks: [block("X1:1", "LT-101 +"), block("X1:11", "spare")] }],
  wires: [wire("W1", "X1:1/out", "B1:+"), wire("101", "X1:11", "K1:A1")],
} as unknown as Opened;

const names = (typed: string): string[] =>
  search(opened, typed).map((t) => (t.kind === "part" ? t.part.ref : t.kind === "block" ? t.block.ref : t.wire.no));

test("the whole name comes before its beginning, and names before labels", () => {
  assert.deepEqual(names("LT-101"), ["B1", "B11", "X1:1"]);
  assert.deepEqual(names("X1:1"), ["X1:1", "X1:11", "W1", "101"]);
  assert.deepEqual(names("101"), ["101", "B1", "B11", "X1:1"]);
});

test("dashes, blanks and case are forgiven", () => {
  for (const typed of ["lt101", " LT 101", "-LT-101"]) assert.equal(names(typed)[0], "B1", typed);
  assert.equal(names("-b1")[0], "B1");
});

test("a terminal of a part leads to the part", () => {
  assert.equal(names("B11:+")[0], "B11");
});

test("nothing typed and nothing found are both empty", () => {
  assert.deepEqual(names(""), []);
  assert.deepEqual(names(" - "), []);
  assert.deepEqual(names("nowhere"), []);
});

test("devices are filtered by all that is written on them", () => {
  const device = (ref: string, tag: string, label: string): DeviceDef => ({
    ref,
    tag,
    label,
    part: ref,
    kind_name: "two-wire transmitter",
    process: "",
  });
  const all = [device("B1", "LT-101", "tank level"), device("K1", "", "interlock")];
  const refs = (typed: string): string[] => filtered(all, typed).map(({ ref }) => ref);
  assert.deepEqual(refs(""), ["B1", "K1"]);
  assert.deepEqual(refs("lt 101"), ["B1"]);
  assert.deepEqual(refs("interl"), ["K1"]);
  assert.deepEqual(refs("transmitter"), ["B1", "K1"]);
  assert.deepEqual(refs("nowhere"), []);
});

test("a point leads to its block or part, whichever side a wire names", () => {
  const level = (inside: string, out: string): BlockView["levels"][number] => ({
    level: 0,
    in: inside,
    out,
    cut: "",
    in_wires: [],
    out_wires: [],
    jumper: 0,
    jumper_side: "",
  });
  const plain = { ...block("X1:1", ""), levels: [level("X1:1", "X1:1")] };
  const fused = { ...block("X1:2", ""), levels: [level("X1:2/in", "X1:2/out")] };
  const drawn = { ...opened, strips: [{ ref: "X1", label: "", blocks: [plain, fused] }] };
  const ref = (point: string): string | undefined => {
    const thing = thingAt(drawn, point);
    return thing?.kind === "block" ? thing.block.ref : thing?.kind === "part" ? thing.part.ref : undefined;
  };
  assert.equal(ref("X1:1"), "X1:1");
  assert.equal(ref("X1:1/out"), "X1:1");
  assert.equal(ref("X1:2/in"), "X1:2");
  assert.equal(ref("X1:2"), undefined);
  assert.equal(ref("B1:+"), "B1");
  assert.equal(ref("B1:-"), undefined);
});
