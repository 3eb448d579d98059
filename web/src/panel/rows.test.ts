import assert from "node:assert/strict";
import { test } from "node:test";
import type { BlockView, LevelView, StripView } from "../core/api.ts";
import { rowsOf } from "./rows.ts";

const level = (jumper: number, side = ""): LevelView => ({
  level: 0,
  in: "",
  out: "",
  cut: "",
  in_wires: [],
  out_wires: [],
  jumper,
  jumper_side: side,
});
const block = (no: string, ...jumpers: number[]): BlockView => ({
  ref: `X1:${no}`,
  no,
  type: "",
  symbol: "",
  label: "",
  fuse: "",
  faults: [],
  isolate: false,
  levels: jumpers.map((jumper) => level(jumper)),
});
const draw = (strip: StripView): string[] =>
  rowsOf(strip).map(({ block: { no }, first, lanes }) => {
    const sign = lanes.map((lane) =>
      lane === null ? " " : lane.lands ? (lane.up ? (lane.down ? "+" : "^") : lane.down ? "v" : "o") : "|",
    );
    return `${first ? no : "."}${sign.join("")}`;
  });
const strip = (...blocks: BlockView[]): StripView => ({ ref: "X1", label: "", blocks });

test("a bar runs from its first block to its last and passes those between", () => {
  assert.deepEqual(draw(strip(block("1", 1), block("2", 0), block("3", 1), block("4", 1), block("5", 0))), [
    "1v",
    "2|",
    "3+",
    "4^",
    "5 ",
  ]);
});

test("bars that follow each other share a lane, bars that overlap do not", () => {
  assert.deepEqual(draw(strip(block("1", 1), block("2", 1), block("3", 2), block("4", 2))), ["1v", "2^", "3v", "4^"]);
  assert.deepEqual(draw(strip(block("1", 1, 2), block("2", 1, 2))), ["1v ", ".|v", "2^|", ". ^"]);
});

test("a strip without jumpers has no lanes", () => {
  assert.deepEqual(draw(strip(block("1", 0), block("2", 0))), ["1", "2"]);
});

test("a bar on the panel side of two-sided blocks runs there", () => {
  const barred = (no: string, side: string): BlockView => ({ ...block(no), levels: [level(1, side)] });
  const [row] = rowsOf(strip(barred("1", "in"), barred("2", "in")));
  assert.equal(row?.panelLanes.length, 1);
  assert.equal(row?.lanes.length, 0);
  const [other] = rowsOf(strip(barred("1", "out"), barred("2", "out")));
  assert.equal(other?.panelLanes.length, 0);
  assert.equal(other?.lanes.length, 1);
});
