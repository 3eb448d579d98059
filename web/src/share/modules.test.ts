import assert from "node:assert/strict";
import { test } from "node:test";
import jsqr from "jsqr";
import { modulesOf, versionFor } from "./modules.ts";

// The package is CommonJS: what it exports is under default once more when Node imports it.
const reader = ((jsqr as unknown as { default?: typeof jsqr }).default ?? jsqr) as typeof jsqr;

// The alphanumeric set of QR codes (ISO/IEC 18004).
const set = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

const textOf = (length: number): string =>
  Array.from({ length }, (_, i) => set[(i * i * 7 + i * 13 + 5) % set.length]).join("");

/** A picture as a screen shows it, a few dots a module. */
function picture(modules: boolean[][], dots = 4): [data: Uint8ClampedArray, width: number, height: number] {
  const side = modules.length * dots;
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      if (modules[Math.floor(y / dots)]?.[Math.floor(x / dots)]) data.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
    }
  }
  return [data, side, side];
}

// Alphanumeric characters at error correction M: ISO/IEC 18004, table of capacities.
const capacities = { 1: 20, 5: 122, 9: 262, 15: 600, 20: 970 };

for (const [version, length] of Object.entries(capacities).map(([v, n]) => [Number(v), n] as const)) {
  test(`version ${version} takes ${length} characters, and another reader reads them`, () => {
    const text = textOf(length);
    assert.equal(versionFor([text.slice(1), text]), version);
    assert.equal(versionFor([`${text}A`]), version + 1);
    const modules = modulesOf(text, version);
    assert.equal(modules.length, 17 + 4 * version + 8, "a side is the version's modules and four of quiet on each side");
    const read = reader(...picture(modules));
    assert.equal(read?.data, text);
    assert.equal(read?.version, version);
  });
}

test("the quiet zone is white, four modules wide", () => {
  const modules = modulesOf("HALFSPLIT", 1);
  const side = modules.length;
  modules.forEach((row, y) =>
    row.forEach((black, x) => {
      const quiet = Math.min(x, y, side - 1 - x, side - 1 - y) < 4;
      if (quiet) assert.equal(black, false, `${x}, ${y}`);
    }),
  );
  assert.equal(modules[4]?.[4], true, "a finder pattern begins right after it");
});
