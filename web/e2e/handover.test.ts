// A job that was done with one phone is handed to another: its panel, its record,
// what was left in place and what it found come along; the drill of one phone is
// taken on the other, and its answer is read on neither.
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { phoneAlone, type Alone } from "./alone.ts";
import { addPanel, openRecords } from "./attach.ts";
import { eventually } from "./eventually.ts";
import { handOut, panelAt, takeIn } from "./handing.ts";
import { leaveInPlace, shut, traceOn } from "./leave.ts";
import { readMemory } from "./memory.ts";
import { json } from "./technician.ts";

const hidden = { panel: "demo:training-bench", fault: "X1:2=fuse-blown", at: "normal" };
const FOUND = "the fuse of X1:2 has blown";
const JUMPER = "Jumper: X1:4 to X1:9";

let a: Alone;
let b: Alone;
/** On the phone that hands over. */
let job: string;
/** On the other one. */
let panel: string;
let file: string;

before(async () => {
  [a, b] = await Promise.all([phoneAlone(), phoneAlone()]);
});
after(async () => {
  await a.end();
  await b.end();
});

const stored = async (page: Page, store: string): Promise<Record<string, unknown>[]> => (await readMemory(page)).stores[store] ?? [];
const text = (page: Page, selector: string): Promise<string> => page.locator(selector).innerText();

test("a job with a jumper left in goes out as a file", async () => {
  const { page, url } = a;
  const own = await addPanel(page, url, "Pump house");
  await traceOn(page, url, own, "P1", hidden);
  await page.getByRole("button", { name: "Repaired: note it" }).click();
  job = decodeURIComponent(/#\/job\/([^/]+)/.exec(page.url())?.[1] ?? "");
  await page.getByRole("link", { name: "Before you leave" }).click();
  await page.getByRole("button", { name: FOUND }).click();
  await page.locator(".said", { hasText: FOUND }).waitFor();
  await leaveInPlace(page, "X1:4 to X1:9");
  file = await handOut(page, url, job, "job");
  const { format, steps, panel: along } = JSON.parse(file) as { format: string; steps: { kind: string }[]; panel: { name: string } };
  assert.equal(format, "halfsplit-job");
  assert.equal(along.name, "Pump house");
  assert.ok(steps.some(({ kind }) => kind === "reading"), "no reading in it");
});

test("the other phone is told what it is, and keeps it with its panel when the person says so", async () => {
  const { page, url } = b;
  await takeIn(page, url, "pump.halfsplit.json", file);
  await page.getByRole("heading", { level: 1, name: "P1 dead" }).waitFor();
  assert.equal(await page.locator("[data-received]").getAttribute("data-received"), "job");
  await page.getByText("Its panel, Pump house, is not on this phone.").waitFor();
  await page.locator("[data-record]").waitFor();
  assert.equal(await page.locator("[data-part]").first().getAttribute("data-part"), "record.temporary");
  assert.deepEqual([await stored(page, "papers"), await stored(page, "panels")], [[], []]);
  await page.getByRole("button", { name: "Add the panel, and keep the record with it" }).click();
  await page.waitForURL(/#\/paper\//);
  await page.locator("[data-record]").waitFor();
  assert.deepEqual(await stored(page, "arrivals"), []);
  const [kept] = await stored(page, "papers");
  const [added] = await stored(page, "panels");
  assert.equal(kept?.["panel"], added?.["id"]);
  assert.equal(kept?.["document"], file);
});

test("it is there to read and to hand on, with what is still in place on top", async () => {
  const { page } = b;
  const parts = page.locator("[data-part]");
  assert.equal(await parts.first().getAttribute("data-part"), "record.temporary");
  assert.match(await parts.first().innerText(), /X1:4 to X1:9\s+STILL IN PLACE/);
  assert.match(await text(page, "[data-part='record.cause']"), new RegExp(FOUND));
  // Nothing on it can be written, ticked or said to be back.
  assert.equal(await page.locator("main :is(input, textarea, select), main .record button").count(), 0);
  await page.getByRole("button", { name: "Hand over" }).click();
  const coming = page.waitForEvent("download");
  await page.locator("dialog[open] .choice", { hasText: "As text" }).click();
  const download = await coming;
  assert.match(download.suggestedFilename(), /^\d{4}-\d\d-\d\d-P1-dead\.txt$/);
  const content = await readFile(await download.path(), "utf8");
  assert.match(content, /^Temporary changes\n! .*temporary jumper at X1:4 to X1:9: STILL IN PLACE\n/);
  assert.match(content, new RegExp(`cause: ${FOUND}`));
  // To the next phone it goes as it came, and the way back leads to it.
  await page.locator("dialog[open] .choice", { hasText: "To another phone" }).click();
  await page.locator("[data-code='1'] canvas").waitFor();
  const [handed] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save as file" }).click()]);
  assert.equal(await readFile(await handed.path(), "utf8"), file);
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator("[data-record]").waitFor();
});

test("the panel's records name its symptom, its cause and what is in place", async () => {
  const { page, url } = b;
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator("[data-paper]").waitFor();
  panel = panelAt(page);
  const row = await text(page, "[data-paper]");
  for (const part of ["P1 dead", FOUND, "Temporary changes not back yet: 1"]) assert.ok(row.includes(part), `${part} in ${row}`);
  // Whoever opens the panel is told first.
  await page.goto(`${url}#/panel/${encodeURIComponent(panel)}/strips`);
  await page.locator("[data-in-place]", { hasText: JUMPER }).waitFor();
});

test("what it left in place is said to be back here, and one tap takes that back", async () => {
  const { page, url } = b;
  await page.locator("[data-in-place] a").click();
  await page.locator(".still", { hasText: JUMPER }).waitFor();
  await page.getByRole("button", { name: "All of it is back as it was" }).click();
  await page.locator("[data-back]").waitFor();
  // What was handed over is what it was.
  assert.match(await text(page, "[data-part='record.temporary']"), /STILL IN PLACE/);
  await openRecords(page, url, panel);
  await page.locator("[data-paper]").waitFor();
  assert.doesNotMatch(await text(page, "[data-paper]"), /not back yet/);
  await page.locator("[data-in-place]").waitFor({ state: "detached" });
  await page.locator("[data-paper] a").click();
  await page.locator("[data-back]").getByRole("button", { name: "Undo" }).click();
  await page.locator(".still", { hasText: JUMPER }).waitFor();
  await openRecords(page, url, panel);
  await page.locator("[data-in-place]", { hasText: JUMPER }).waitFor();
  assert.match(await text(page, "[data-paper]"), /not back yet/);
});

/** Begins a search for what makes P1 dead and reads what speaks for the fuse of X1:2. */
async function evidence({ page, url }: Alone, of: string): Promise<string> {
  await page.goto(`${url}#/panel/${encodeURIComponent(of)}/strips`);
  await page.locator(".strip").first().waitFor();
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: "P1" }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator(".prompt").waitFor();
  await page.getByRole("button", { name: /^Suspects/ }).click();
  const mine = page.locator(".suspects > li", { hasText: FOUND });
  await mine.waitFor();
  const why = await mine.innerText();
  await shut(page);
  return why;
}
const IN_HISTORY = /found in an earlier job at this panel: the fuse of X1:2 has blown \(times: 1\), last \d{4}-\d\d-\d\d/;

test("the next search there knows what it found", async () => {
  assert.match(await evidence(b, panel), IN_HISTORY);
});

test("the same job again is here already", async () => {
  await takeIn(b.page, b.url, "again.json", await handOut(a.page, a.url, job, "job"));
  await b.page.locator("[data-here=paper]", { hasText: "This record is kept here already." }).waitFor();
  assert.equal(await b.page.getByRole("button", { name: /^Keep it with|^Add the panel/ }).count(), 0);
  assert.equal((await stored(b.page, "papers")).length, 1);
});

test("the phone it was done with knows it, and what is put away there comes back", async () => {
  const { page, url } = a;
  await takeIn(page, url, "mine.json", file);
  await page.locator("[data-here=job]", { hasText: "This job was done with this phone." }).waitFor();
  assert.equal(await page.getByRole("button", { name: /^Keep it with|^Add the panel/ }).count(), 0);
  await page.getByRole("button", { name: "Put it away" }).click();
  await page.getByText("Removed: P1 dead").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator("[data-here=job]").waitFor();
  await page.getByRole("button", { name: "Put it away" }).click();
  await page.getByText("Removed: P1 dead").waitFor();
  await page.goto(url);
  await page.getByRole("link", { name: /^Pump house/ }).waitFor();
  assert.equal(await page.locator("[data-arrival]").count(), 0);
  await page.goto(`${url}#/deleted`);
  await page.locator("[data-away=arrival]", { hasText: "P1 dead" }).getByRole("button", { name: "Bring back" }).click();
  await page.locator("[data-away=arrival]").waitFor({ state: "detached" });
  await page.goto(url);
  await page.locator("[data-arrival]", { hasText: "P1 dead" }).click();
  await page.locator("[data-here=job]").waitFor();
  assert.deepEqual(await stored(page, "papers"), []);
});

test("a kept record that is put away counts no more, until it is brought back", async () => {
  const { page, url } = b;
  await openRecords(page, url, panel);
  await page.getByRole("button", { name: "Remove P1 dead" }).click();
  await page.locator("[data-paper]").waitFor({ state: "detached" });
  await page.locator("[data-in-place]").waitFor({ state: "detached" });
  assert.doesNotMatch(await evidence(b, panel), /earlier job/);
  await page.goto(`${url}#/deleted`);
  await page.locator("[data-away=paper]", { hasText: "P1 dead" }).getByRole("button", { name: "Bring back" }).click();
  await page.locator("[data-away=paper]").waitFor({ state: "detached" });
  assert.match(await evidence(b, panel), IN_HISTORY);
  await openRecords(page, url, panel);
  await page.locator("[data-paper]").waitFor();
});

test("gone on with there, its record takes the place of the earlier one", async () => {
  await a.page.goto(`${a.url}#/record/${job}`);
  await a.page.locator(".still").getByRole("button", { name: "Is back" }).click();
  await a.page.locator(".still").waitFor({ state: "detached" });
  const { page, url } = b;
  await takeIn(page, url, "later.json", await handOut(a.page, a.url, job, "job"));
  await page.locator("[data-before]").waitFor();
  await page.getByRole("button", { name: "Keep it with Pump house" }).click();
  await page.waitForURL(/#\/paper\//);
  await page.locator("[data-record]").waitFor();
  assert.doesNotMatch(await text(page, "[data-part='record.temporary']"), /STILL IN PLACE/);
  await openRecords(page, url, panel);
  await page.locator("[data-paper]").first().waitFor();
  assert.equal(await page.locator("[data-paper]").count(), 1);
  assert.doesNotMatch(await text(page, "[data-paper]"), /not back yet/);
  await page.locator("[data-in-place]").waitFor({ state: "detached" });
  await page.goto(`${url}#/deleted`);
  await page.locator("[data-away=paper]", { hasText: "P1 dead" }).waitFor();
  assert.deepEqual([...a.complaints, ...b.complaints], []);
});

/** A drill as a trainer's computer seals it. */
async function sealed(name: string, complaint: string, fault: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "halfsplit-drill-"));
  try {
    const path = join(folder, "own.drill.json");
    const drill = {
      format: "halfsplit-drill",
      version: 1,
      name,
      grade: 1,
      demo: "training-bench",
      complaint,
      dead: ["P1"],
      hidden: { faults: [fault], plan: { steps: 3 }, explanation: `The wire of ${fault} lay open behind the door.` },
    };
    await writeFile(path, JSON.stringify(drill));
    return ((await json(["drill", path, "--difficulty", "--json"])) as { sealed: string }).sealed;
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** Neither on the screen nor in what is kept. */
async function isHidden({ page }: Alone): Promise<void> {
  const answer = /W1[78]=|behind the door/;
  assert.doesNotMatch(await text(page, "main"), answer);
  for (const store of ["arrivals", "drills"]) assert.doesNotMatch(JSON.stringify(await stored(page, store)), answer, store);
}

test("a drill goes from phone to phone sealed, and is taken there", async () => {
  const drill = await sealed("Dark again", "The lamp for running is dark.", "W17=broken");
  await takeIn(a.page, a.url, "dark.drill.json", drill);
  await a.page.getByRole("button", { name: "Begin this drill" }).click();
  await a.page.locator(".complaint").waitFor();
  const attempt = decodeURIComponent(/#\/drill\/([^/]+)/.exec(a.page.url())?.[1] ?? "");
  const handed = await handOut(a.page, a.url, attempt, "drill");
  assert.equal(handed, drill);

  const { page, url } = b;
  await takeIn(page, url, "dark.halfsplit.json", handed);
  await page.locator("[data-received=drill]").waitFor();
  await page.getByRole("heading", { level: 1, name: "Dark again" }).waitFor();
  assert.deepEqual(await stored(page, "drills"), []);
  assert.equal(await page.locator("[data-begun]").count(), 0);
  await isHidden(b);
  await page.getByRole("button", { name: "Begin this drill" }).click();
  await page.locator(".complaint", { hasText: "The lamp for running is dark." }).waitFor();
  await eventually(async () =>
    assert.deepEqual((await stored(page, "arrivals")).filter(({ kind }) => kind === "drill"), []),
  );
  await page.getByRole("link", { name: "Panel", exact: true }).click();
  await page.locator("input[type=search]").fill("S2");
  await page.locator(".choices .choice", { has: page.locator('b:text-is("S2")') }).first().click();
  await page.locator("dialog[open] .choice", { hasText: "press S2" }).first().click();
  await page.locator("[data-steps='1']").waitFor();
  await page.reload();
  await page.locator("[data-steps='1']").waitFor();
  await isHidden(b);
});

test("the same drill again, and another of its name, are said to be so and stay apart", async () => {
  const { page, url } = b;
  await takeIn(page, url, "same.json", await sealed("Dark again", "The lamp for running is dark.", "W17=broken"));
  await page.locator("[data-begun=same]", { hasText: "This drill was begun here" }).waitFor();
  await page.getByRole("button", { name: "Put it away" }).click();
  await page.getByText("Removed: Dark again").waitFor();

  const changed = await sealed("Dark again", "The lamp stays dark, whatever I press.", "W18=broken");
  await takeIn(page, url, "changed.json", changed);
  await page.locator("[data-begun=other]", { hasText: "The two stay apart." }).waitFor();
  assert.equal(await page.getByRole("button", { name: /merge/i }).count(), 0);
  await isHidden(b);
  const [first] = await stored(page, "drills");
  await page.getByRole("button", { name: "Begin this drill" }).click();
  await page.locator(".complaint", { hasText: "whatever I press" }).waitFor();
  const both = await stored(page, "drills");
  assert.equal(both.length, 2);
  assert.deepEqual(both.find(({ id }) => id === first?.["id"]), first, "the one begun before was touched");
});

test("a drill whose text was changed under its seal is refused", async () => {
  const { page, url } = b;
  const drill = await sealed("Dark again", "The lamp for running is dark.", "W17=broken");
  const mixed = drill.replace("for running is dark", "for stopped is dark");
  assert.notEqual(mixed, drill);
  await takeIn(page, url, "mixed.json", mixed);
  assert.match(await page.getByRole("alert").innerText(), /seal/);
  assert.equal((await stored(page, "drills")).length, 2);
  await isHidden(b);
  assert.deepEqual([...a.complaints, ...b.complaints], []);
});
