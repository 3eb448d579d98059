import assert from "node:assert/strict";
import { test } from "node:test";
import { BadDocument, elements, type Element } from "./elements.ts";

async function* cut(text: string, at: readonly number[]): AsyncGenerator<string> {
  let from = 0;
  for (const to of [...at, text.length]) {
    yield text.slice(from, to);
    from = to;
  }
}

async function read(text: string, at: readonly number[] = []): Promise<Element[]> {
  const out: Element[] = [];
  for await (const element of elements(cut(text, at))) out.push(element);
  return out;
}

const document = {
  format: "halfsplit-backup",
  version: 1,
  "a \"quoted\" name\\": [{ text: 'brackets ]}, commas, "quotes" and \\ in a string', deep: [[1, [2]], { x: {} }] }, 7],
  empty: [],
  words: ["", "ünï ✓", null, true],
  object: { kept: ["whole"] },
};

const want: Element[] = Object.entries(document).flatMap(([name, value]): Element[] =>
  Array.isArray(value) ? value.map((item) => ({ name, value: item as unknown })) : [{ name, value }],
);

test("every element comes, however the file is set out", async () => {
  for (const space of [0, 1, 4, "\t"]) assert.deepEqual(await read(JSON.stringify(document, null, space)), want);
  assert.deepEqual(await read("{}"), []);
  assert.deepEqual(await read(" \n{ } \n"), []);
});

test("every element comes, however the file is cut", async () => {
  const text = JSON.stringify(document, null, 1);
  for (let at = 0; at <= text.length; at++) assert.deepEqual(await read(text, [at]), want, `cut at ${at}`);
  assert.deepEqual(await read(text, [...text].map((_, i) => i)), want, "cut everywhere");
});

test("a file that is cut short, or is no such document, is refused", async () => {
  const text = JSON.stringify(document);
  for (let length = 0; length < text.length; length++) {
    await assert.rejects(read(text.slice(0, length)), BadDocument, `the first ${length} characters`);
  }
  const bad = ["[]", "[{}]", '"a"', "7", "{}{}", "{} x", "x {}", '{"a" 1}', '{"a": }', '{"a": [1, x]}', "{a: 1}", '{"a": [1}]', "{]", '{"a": [}', "}"];
  for (const one of bad) await assert.rejects(read(one), BadDocument, one);
});
