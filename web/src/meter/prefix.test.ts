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
  for (const text of ["", "ten", "1 2", "1.2.3", "k", "1e9"]) assert.equal(read(text), null, text);
});
