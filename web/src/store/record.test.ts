import assert from "node:assert/strict";
import { test } from "node:test";
import { readers } from "./record.ts";

const [added, changed] = ["2024-05-01T08:00:00Z", "2024-05-02T08:00:00Z"];
const panel = { id: "file:1", title: "Pump house", text: "{}", added, version: 3, changed };

test("the steps of a drawing come back from a file as they were written", () => {
  const wire = { op: "wire", from: "X1:1", to: "X1:2" };
  const drawn = { base: "", steps: [[{ op: "strip", count: 10 }], [wire, { op: "label", ref: "X1", label: "a" }]] };
  assert.deepEqual(readers.panels({ ...panel, drawn }), { ...panel, drawn });
});

test("a panel whose steps cannot be read is kept without them", () => {
  const steps = [[{}], [[{ count: 10 }]], [[null]], {}].map((list) => ({ base: "", steps: list }));
  for (const drawn of [null, [], "steps", { base: 1, steps: [] }, { base: "" }, ...steps]) {
    assert.deepEqual(readers.panels({ ...panel, drawn }), panel, JSON.stringify(drawn));
  }
});
