// Two phones without a server hand one panel back and forth by file, draw on it
// on both sides, and bring it together: nothing is lost, nothing is overwritten.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { addPanel, openRecords } from "./attach.ts";
import { phoneAlone, type Alone } from "./alone.ts";
import { colourWire, handOut, panelAt, takeIn } from "./handing.ts";
import { readMemory } from "./memory.ts";

let a: Alone;
let b: Alone;
let ofA: string;
let ofB: string;

before(async () => {
  [a, b] = await Promise.all([phoneAlone(), phoneAlone()]);
  ofA = await addPanel(a.page, a.url, "Pump house");
});
after(async () => {
  await a.end();
  await b.end();
});

interface Wire {
  no: string;
  colour?: string;
  label?: string;
}
interface Panel {
  name: string;
  wires: Wire[];
  editions?: string[];
}

/** A panel as the phone's memory has it, without the page's own code. */
async function drawn({ page }: Alone, panel: string): Promise<Panel> {
  const saved = (await readMemory(page)).stores["panels"]?.find(({ id }) => id === panel);
  return JSON.parse(String(saved?.["text"])) as Panel;
}

const colour = ({ wires }: Panel, no: string): string | undefined => wires.find((wire) => wire.no === no)?.colour;

test("what is new there is kept when the person says so, and not before", async () => {
  const file = await handOut(a.page, a.url, ofA);
  await takeIn(b.page, b.url, "pump.halfsplit.json", file);
  const { page } = b;
  await page.getByText("No panel of this phone is one it could be a copy of.").waitFor();
  assert.deepEqual((await readMemory(page)).stores["panels"], []);
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Pump house" }).waitFor();
  assert.deepEqual((await readMemory(page)).stores["panels"], []);
  await page.getByRole("button", { name: "Keep it on this phone" }).click();
  await page.locator(".strip").first().waitFor();
  ofB = panelAt(page);
  assert.deepEqual((await readMemory(page)).stores["arrivals"], []);
});

test("the same again is said to be the same", async () => {
  await takeIn(b.page, b.url, "again.json", await handOut(a.page, a.url, ofA));
  await b.page.locator("[data-copy=same]", { hasText: "Pump house is on this phone, and says the same." }).waitFor();
  await b.page.getByRole("button", { name: "Put it away" }).click();
  await b.page.getByText("Removed: Pump house").waitFor();
});

test("a later state, renamed, is known as such and taken over; one tap takes that back", async () => {
  const { page } = b;
  await colourWire(a.page, a.url, ofA, "W1", "BU");
  const renamed = JSON.parse(await handOut(a.page, a.url, ofA)) as Panel;
  renamed.name = "Pump house, door 3";
  await takeIn(page, b.url, "later.json", JSON.stringify(renamed));
  await page.locator("[data-copy=newer]").waitFor();
  await page.locator("[data-diff=changed]", { hasText: "colour: BU instead of BN" }).waitFor();
  const before = await drawn(b, ofB);
  await page.getByRole("button", { name: "Take theirs over" }).click();
  await page.locator("[data-done]").waitFor();
  assert.equal(colour(await drawn(b, ofB), "W1"), "BU");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator("[data-copy]").waitFor();
  assert.deepEqual(await drawn(b, ofB), before);
  // Taken over once and taken back, it is an earlier state of what is here now.
  await page.getByRole("button", { name: "Take theirs over" }).click();
  await page.locator("[data-done]").waitFor();
  assert.equal((await drawn(b, ofB)).name, "Pump house, door 3");
  await openRecords(page, b.url, ofB);
  await page.locator(".away b", { hasText: /^Pump house$/ }).first().waitFor();
});

test("changed on both sides: what one changed is taken, what both changed is decided", async () => {
  const { page } = b;
  await colourWire(a.page, a.url, ofA, "W2", "RD"); // both
  await colourWire(a.page, a.url, ofA, "W3", "VT"); // only there
  await colourWire(page, b.url, ofB, "W2", "WH");
  await colourWire(page, b.url, ofB, "W4", "GY"); // only here
  await takeIn(page, b.url, "both.json", await handOut(a.page, a.url, ofA));
  await page.locator("[data-copy=parted]").waitFor();
  await page.getByRole("button", { name: "Merge the two" }).click();
  await page.locator("[data-conflict='/wires/W2/colour']").waitFor();
  await page.locator(".side", { hasText: "WH" }).waitFor();
  assert.equal(await page.getByRole("button", { name: "Keep the merged drawing" }).count(), 0, "kept before it is decided");
  await page.locator(".side", { hasText: "RD" }).click();
  await page.getByText("Nothing is left to decide.").waitFor();
  await page.getByRole("button", { name: "Keep the merged drawing" }).click();
  await page.locator("[data-done]").waitFor();
  const merged = await drawn(b, ofB);
  assert.deepEqual(
    ["W1", "W2", "W3", "W4"].map((no) => colour(merged, no)),
    ["BU", "RD", "VT", "GY"],
  );
  // The name that only this side had changed stays, and ours before it is among the versions.
  assert.equal(merged.name, "Pump house, door 3");
  const versions = (await readMemory(page)).stores["versions"] ?? [];
  const ours = versions.map(({ text }) => colour(JSON.parse(String(text)) as Panel, "W2"));
  assert.ok(ours.includes("WH") && ours.includes("RD"), `the two sides are not both kept: ${ours.join(" ")}`);
});

test("the merged panel goes back and is a later state there", async () => {
  await takeIn(a.page, a.url, "back.json", await handOut(b.page, b.url, ofB));
  await a.page.locator("[data-copy=newer]").waitFor();
  await a.page.getByRole("button", { name: "Take theirs over" }).click();
  await a.page.locator("[data-done]").waitFor();
  const [here, there] = [await drawn(a, ofA), await drawn(b, ofB)];
  delete here.editions;
  delete there.editions;
  assert.deepEqual(here, there);
  assert.equal((await readMemory(a.page)).stores["panels"]?.length, 1);
});

test("a copy without a state that both know is decided thing by thing, or kept beside", async () => {
  const { page } = b;
  const stranger = await drawn(b, ofB);
  delete stranger.editions;
  const [wire] = stranger.wires;
  if (wire) wire.colour = "PK";
  await takeIn(page, b.url, "stranger.json", JSON.stringify(stranger));
  await page.locator("[data-copy=unknown]").waitFor();
  await page.getByRole("button", { name: "Merge the two" }).click();
  await page.locator("[data-conflict='/wires/W1/colour']").waitFor();
  await page.getByRole("button", { name: "Do not merge" }).click();
  await page.getByRole("button", { name: "Keep both" }).click();
  await page.locator("[data-done]").waitFor();
  const panels = (await readMemory(page)).stores["panels"] ?? [];
  assert.equal(panels.length, 2);
  assert.equal(colour(await drawn(b, ofB), "W1"), "BU", "ours was touched");
  assert.deepEqual(
    panels.map(({ split }) => split).filter(Boolean),
    [{ of: ofB, why: "received" }],
  );
  assert.deepEqual([...a.complaints, ...b.complaints], []);
});
