// What a screen reader is told, from the browser's accessibility tree: a prompt
// whole and once, marks on a strip in words, headings in order.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { phoneServed, type Alone } from "./alone.ts";

let phone: Alone;

before(async () => {
  phone = await phoneServed();
});
after(() => phone.end());

/** The levels of the headings as they come. */
function levels(page: Page): Promise<number[]> {
  return page.evaluate(() => [...document.querySelectorAll("h1, h2, h3, h4")].map(({ localName }) => Number(localName[1])));
}

function inOrder(all: number[]): void {
  assert.equal(all[0], 1, "the first heading is not the screen's name");
  assert.equal(all.filter((level) => level === 1).length, 1);
  all.forEach((level, index) => assert.ok(level <= (all[index - 1] ?? 0) + 1, `levels ${all.join(" ")}`));
}

test("a prompt is one heading, and nothing says it a second time", async () => {
  const { page } = phone;
  await page.goto(`${phone.url}#/panel/demo%3Adosing-skid/strips`);
  await page.locator(".strip .volts:not(:empty)").first().waitFor();
  inOrder(await levels(page));
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: "PT-102 B2" }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  inOrder(await levels(page));
  const mark = await page.getByRole("group", { name: "PT-102 B2" }).ariaSnapshot();
  assert.match(mark, /button "Dead" \[pressed\]/);
  assert.match(mark, /button "Works"$/m);
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator(".prompt").waitFor();
  for (let steps = 2; (await page.locator(".outcome-look").count()) > 0; ) {
    await page.locator(".outcome-look[data-healthy='false']").first().click();
    await page.locator(`[data-steps='${++steps}']`).waitFor();
  }
  inOrder(await levels(page));
  const [red, black] = await page.locator(".lead-where b").allInnerTexts();
  const said = `V AC, red on ${red}, black on ${black}`;
  const tree = await page.locator("main").ariaSnapshot();
  const heading = `- heading "${said}" [level=2]`;
  assert.equal(tree.split(heading).length, 2, `${heading} is not there once:\n${tree}`);
  assert.match(tree, /heading "What does the meter show\?" \[level=2\]/);
  assert.match(tree, /button "229\.1 V as healthy/);
  await page.locator("h2.dial-mode:focus").waitFor();
  const live = await page.locator("[aria-live], [role=status], [role=alert], output").allInnerTexts();
  assert.ok(!live.some((text) => text.includes(red ?? "?")), `said again: ${live.join(" | ")}`);
});

test("marks on a strip are words", async () => {
  const { page } = phone;
  await page.goto(`${phone.url}#/meter/demo%3Adosing-skid/vdc/X3%3A2.2%2Fout/X2%3A1/`);
  await page.locator(".probe-red").waitFor();
  const of = (block: string): Promise<string> => page.locator(`#block-${block.replace(":", "\\:")}`).ariaSnapshot();
  assert.match(await of("X3:2"), /red probe here/);
  assert.match(await of("X2:1"), /black probe here/);
  assert.match(await of("X2:1"), /on jumper 1/);
  assert.match(await of("X2:1"), /button "X2:1" \[pressed\]/);
  // Figures that move say which is which.
  await page.goto(`${phone.url}#/whatif/demo%3Adosing-skid/X3%3A2.2%3Dfuse-blown/strip`);
  await page.locator(".volts-moved").first().waitFor();
  inOrder(await levels(page));
  const block = await page.locator("#block-X3\\:2").ariaSnapshot();
  assert.match(block, /was 2[34]\.\d+ now \d/);
});
