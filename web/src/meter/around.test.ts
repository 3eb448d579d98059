// Which wires a clamp is offered, and which things a reading may be about.
import assert from "node:assert/strict";
import { test } from "node:test";
import type { Opened, WireEnd } from "../core/api.ts";
import { endAt, wiresAt } from "../panel/ends.ts";
import { thingsAround } from "./around.ts";

const end = (no: string): WireEnd => ({ no, colour: "", other: "", other_tag: "" });
const level = { level: 0, cut: "", jumper: 0, jumper_side: "" };
const opened = {
  strips: [
    {
      ref: "X1",
      label: "",
      blocks: [
        {
          ref: "X1:1",
          levels: [
            { ...level, level: 2, in: "X1:1.2/in", out: "X1:1.2/out", cut: "fuse", in_wires: [end("1")], out_wires: [end("2")] },
            { ...level, level: 1, in: "X1:1.1", out: "X1:1.1", in_wires: [end("3")], out_wires: [end("4")] },
          ],
        },
      ],
    },
  ],
  parts: [{ ref: "K1", terminals: [{ point: "K1:A1", wires: [end("2")] }] }],
  wires: [
    { no: "1" },
    { no: "2", from: "X1:1.2/out", to: "K1:A1" },
    { no: "3" },
    { no: "4", from: "X1:1.1/out", to: "K2:1" },
  ],
} as unknown as Opened;

const numbers = (point: string): string[] => wiresAt(opened, point).map(({ no }) => no);

test("wires of one side, of one piece of metal, of a terminal", () => {
  assert.deepEqual(numbers("X1:1.2/in"), ["1"]);
  assert.deepEqual(numbers("X1:1.2/out"), ["2"]);
  assert.deepEqual(numbers("X1:1.1"), ["3", "4"]);
  assert.deepEqual(numbers("K1:A1"), ["2"]);
  assert.deepEqual(numbers("X9:9"), []);
});

test("things around two probes, each once; a lifted wire is one of them", () => {
  assert.deepEqual(thingsAround(opened, ["X1:1.2/out", "K1:A1"]), ["X1:1", "2", "K1"]);
  assert.deepEqual(thingsAround(opened, ["2@X1:1.2/out", ""]), ["2"]);
});

test("an end of a wire is named as the drawing writes it", () => {
  assert.equal(endAt(opened, "2", "X1:1.2/out"), "2@X1:1.2/out");
  assert.equal(endAt(opened, "4", "X1:1.1"), "4@X1:1.1/out");
});
