import assert from "node:assert/strict";
import { test } from "node:test";
import { read, write } from "./prefix.ts";

test("figures read as they were written", () => {
  for (const value of [10e6, 3e3, 200e3, 1.5, 0.1, 0, 50, 1000, 6000, 2.2e-3, -5]) {
    assert.equal(read(write(value)), value, write(value));
  }
  assert.equal(write(10e6), "10 M");
  assert.equal(write(0.1), "100 m");
});

test("comma or point, with or without a blank; nonsense is nothing", () => {
  assert.equal(read("0,1"), 0.1);
  assert.equal(read("10M"), 10e6);
  assert.equal(read("2 k"), 2000);
  assert.equal(read("5 u"), 5e-6);
  assert.equal(read("24,1"), 24.1);
  assert.equal(read("-24,1"), -24.1);
  assert.equal(read("1,234 k"), 1234);
  assert.equal(read("0,125"), 0.125);
  for (const text of ["", "ten", "1 2", "1.2.3", "k", "1e9"]) assert.equal(read(text), "no-figure", text);
});

test("what may be thousands is refused as such", () => {
  for (const text of ["10,000", "10.000", "1 000", "1'000", "1,234.5", "1.234,5", "-1.234.567"]) {
    assert.equal(read(text), "thousands", text);
  }
});
