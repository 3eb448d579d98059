import assert from "node:assert/strict";
import { test } from "node:test";
import { figureOf, keyOf, press, unitsOf, type Key, type Unit } from "./entry.ts";

const typed = (keys: string): string =>
  [...keys].reduce((text, k) => {
    const key = k === "<" ? "back" : keyOf(k);
    assert.ok(key, k);
    return press(text, key);
  }, "");

test("keys make the figure on the display", () => {
  const rows: [keys: string, unit: Unit, text: string, value: number | "OL" | null][] = [
    ["24.1", "V", "24.1", 24.1],
    ["24,1", "V", "24.1", 24.1],
    ["-0,5", "V", "-0.5", -0.5],
    ["12-", "V", "-12", -12],
    ["12--", "V", "12", 12],
    [".5", "V", "0.5", 0.5],
    ["-.5", "V", "-0.5", -0.5],
    ["007", "V", "7", 7],
    ["1..5", "V", "1.5", 1.5],
    ["12.", "V", "12.", 12],
    ["350", "mV", "350", 0.35],
    ["-0", "V", "-0", 0],
    ["4.7", "kΩ", "4.7", 4700],
    ["2", "MΩ", "2", 2e6],
    ["0.3", "Ω", "0.3", 0.3],
    ["O", "V", "OL", "OL"],
    ["12O", "V", "OL", "OL"],
    ["O3", "V", "3", 3],
    ["12<", "V", "1", 1],
    ["1<", "V", "", null],
    ["O<", "V", "", null],
    ["-", "V", "-", null],
    ["-24,1", "V", "-24.1", -24.1],
    ["1.234,5", "V", "1.234.5", null],
    ["1,234.5", "V", "1.234.5", null],
    ["1.234.567,8", "V", "1.234.567", null],
    ["1.5.<", "V", "1.5", 1.5],
    ["1234567890", "V", "1234567", 1234567],
  ];
  for (const [keys, unit, text, value] of rows) {
    assert.equal(typed(keys), text, keys);
    const figure = figureOf(text, unit);
    assert.ok(Object.is(figure, value), `${keys}: ${figure}, want ${value}`);
  }
});

test("other keys of a keyboard do nothing", () => {
  for (const key of ["e", "E", " ", "Enter", "Tab", "NaN"]) assert.equal(keyOf(key), null);
  const keys: Key[] = ["point", "point", "sign"];
  assert.equal(keys.reduce(press, ""), "-0.");
});

test("the units are those of the mode, the usual one first", () => {
  assert.deepEqual(unitsOf("vdc"), ["V", "mV"]);
  assert.deepEqual(unitsOf("vac"), ["V", "mV"]);
  assert.deepEqual(unitsOf("ohms"), ["Ω", "kΩ", "MΩ"]);
});
