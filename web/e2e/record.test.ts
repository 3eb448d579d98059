// From a dead lamp to the record of the job, by thumb: what was left in place is
// on top of every form of it, what a person wrote is text and nothing else, and
// the next job at the panel knows what the one before found.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { addPanel } from "./attach.ts";
import { leaveInPlace, sayInWords, shut, traceOn } from "./leave.ts";
import { putRecords, readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;
let panel: string;
let job: string;

const evil = (mark: string): string => `<img src=x onerror="document.title='${mark}'">`;
const hidden = { panel: "demo:training-bench", fault: "X1:2=fuse-blown", at: "normal" };
const FOUND = "the fuse of X1:2 has blown";

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  panel = await addPanel(phone.page, server.url, `Bench ${evil("title")}`);
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

const text = (page: Page, selector: string): Promise<string> => page.locator(selector).innerText();

/** Nothing of what was written became an element, and nothing of it ran. */
async function isOnlyText(page: Page): Promise<void> {
  assert.equal(await page.locator("img[src=x], [onerror]").count(), 0);
  assert.doesNotMatch(await page.title(), /^(title|note|complaint)$/);
}

test("a search ends with what it was, what was done and what was checked", async () => {
  const { page } = phone;
  await traceOn(page, server.url, panel, "P1", hidden);
  assert.match(await text(page, ".culprit-place .marker"), /^X1:2$/);
  await page.getByRole("button", { name: "Repaired: note it" }).click();
  job = decodeURIComponent(/#\/job\/([^/]+)/.exec(page.url())?.[1] ?? "");
  await page.getByRole("link", { name: "Before you leave" }).click();

  await page.getByRole("button", { name: FOUND }).click();
  await page.locator(".said", { hasText: FOUND }).waitFor();
  const caution = await text(page, "[data-fuse-caution]");
  assert.match(caution, /find the load that blew it/);
  assert.match(caution, /P1/);
  await sayInWords(page, "Say the cause otherwise", "water in the box\nsince the last wash");
  await page.getByRole("button", { name: "Just that" }).click();
  await page.locator(".said", { hasText: "find what overloaded X1:2" }).waitFor();
  await leaveInPlace(page, "X1:4 to X1:9");
  await page.locator(".still", { hasText: "Jumper: X1:4 to X1:9" }).waitFor();
  await page.locator(".check", { hasText: "Function checked: P1 works again" }).click();
  await page.locator(".check-done", { hasText: "P1" }).waitFor();
  // A jumper in place holds nobody up; it is only said.
  const links = page.locator(".check", { hasText: "Temporary links out" });
  assert.match(await links.innerText(), /Temporary changes not back yet: 1/);
  await sayInWords(page, "Your name, if you like", "K. M.");
  await sayInWords(page, "In the caller's words", `lamp dark ${evil("complaint")}`);
  const suggested = Number(await text(page, ".minutes output"));
  await page.getByRole("button", { name: "5 min more" }).click();
  await page.getByRole("button", { name: `Keep ${suggested + 5} min` }).click();
  await page.getByText("Kept.").waitFor();

  // Undone is not said; said again it stands.
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: `Keep ${suggested} min` }).waitFor();
  await page.getByRole("button", { name: "5 min more" }).click();
  await page.getByRole("button", { name: `Keep ${suggested + 5} min` }).click();
  await page.getByText("Kept.").waitFor();

  await page.goto(`${server.url}#/job/${job}/next`);
  await page.locator(".outcome-page").waitFor();
  assert.equal(await page.getByRole("button", { name: "Repaired: note it" }).count(), 0);
});

test("the record has all of it, what is in place on top, and a reload loses none", async () => {
  const { page } = phone;
  await page.goto(`${server.url}#/panel/${encodeURIComponent(panel)}/records`);
  await page.getByRole("heading", { name: "Earlier jobs" }).waitFor();
  // Whoever opens the panel next is told first.
  await page.locator("[data-in-place]", { hasText: "Jumper: X1:4 to X1:9" }).waitFor();
  const row = page.locator(".choice", { hasText: "water in the box" });
  assert.match(await row.innerText(), /lamp dark .*\d+ min.*Temporary changes not back yet: 1/s);
  await row.click();
  for (const again of [false, true]) {
    if (again) await page.reload();
    await page.locator("[data-record]").waitFor();
    const parts = await page.locator("[data-part]").evaluateAll((list) => list.map((part) => part.getAttribute("data-part")));
    assert.deepEqual(parts, ["record.temporary", "record.head", "record.steps", "record.cause", "record.checks"]);
    assert.match(await text(page, ".still"), /Jumper: X1:4 to X1:9/);
    assert.match(await text(page, "[data-part='record.temporary']"), /X1:4 to X1:9\s+STILL IN PLACE/);
    const head = await text(page, "[data-part='record.head']");
    for (const part of ["P1 dead", evil("title"), evil("complaint"), "K. M."]) assert.ok(head.includes(part), `${part} in ${head}`);
    assert.match(await text(page, "[data-part='record.steps']"), /expected /);
    assert.match(await text(page, "[data-part='record.cause']"), /water in the box\nsince the last wash[^]*X1:2=fuse-blown[^]*find what overloaded X1:2/);
    assert.match(await text(page, "[data-part='record.checks']"), /P1 works again\s+done[^]*Covers on\s+NOT DONE/);
    await isOnlyText(page);
  }
});

async function handedOver(page: Page, name: string): Promise<{ file: string; content: string }> {
  await page.getByRole("button", { name: "Hand over" }).click();
  const coming = page.waitForEvent("download");
  await page.locator("dialog[open] .choice", { hasText: name }).click();
  const download = await coming;
  const content = await readFile(await download.path(), "utf8");
  await page.locator("dialog[open]").getByText(download.suggestedFilename()).waitFor();
  await shut(page);
  return { file: download.suggestedFilename(), content };
}

test("as text, as a table and as a page it says the same, what is in place first", async () => {
  const { page } = phone;
  const note = `=1+1 ${evil("note")}`;
  await page.goto(`${server.url}#/job/${job}/next`);
  await page.locator(".outcome-page").waitFor();
  // A note of the job, where the steps are.
  await page.goto(`${server.url}#/job/${job}/marks`);
  await putRecords(page, "notes", [{ id: "note-1", panel, job, thing: "", text: note, when: new Date().toISOString() }]);
  await page.goto(`${server.url}#/record/${job}`);
  await page.locator("[data-part='record.notes']").waitFor();
  await isOnlyText(page);

  const asText = await handedOver(page, "As text");
  assert.match(asText.file, /^\d{4}-\d\d-\d\d-P1-dead\.txt$/);
  assert.match(asText.content, /^Temporary changes\n! \d{4}-\d\d-\d\d \d\d:\d\d {2}temporary jumper at X1:4 to X1:9: STILL IN PLACE\n/);
  assert.match(asText.content, /complaint: lamp dark/);
  assert.match(asText.content, /cause: water in the box since the last wash; X1:2/);

  const csv = await handedOver(page, "As a table");
  assert.match(csv.content, /^\ufeff"part","when","what"/);
  const cells = [...csv.content.matchAll(/"((?:[^"]|"")*)"/g)].map(([, cell = ""]) => cell.replace(/""/g, '"'));
  assert.equal(cells[6], "Temporary changes");
  assert.equal(cells[9], "STILL IN PLACE");
  assert.ok(cells.includes(`'${note}`), "the formula is not guarded");
  // No cell is a formula, and none is a bare figure that another locale would take for a date.
  for (const cell of cells) assert.doesNotMatch(cell, /^\s*[=+@]|^-(?!\d+$)|^\d+[.,]\d+$/);
  assert.ok(cells.some((cell) => /^'?-?[\d.]+ m?V$/.test(cell)), `no reading with its unit in ${cells.join("|")}`);

  const html = await handedOver(page, "As a page");
  assert.ok(html.content.indexOf("STILL IN PLACE") < html.content.indexOf("P1 dead</td>"));
  assert.doesNotMatch(html.content, /<img|<script/);
  assert.ok(html.content.includes("&lt;img src=x onerror="));
  // As a person opens it: no element comes of what was written.
  const reader = await phone.context.newPage();
  await reader.setContent(html.content);
  await isOnlyText(reader);
  assert.equal(await reader.locator("tr.open").count(), 6); // the jumper, five checks
  await reader.close();
});

test("to another phone it goes with its panel", async () => {
  const { page } = phone;
  await page.getByRole("button", { name: "Hand over" }).click();
  await page.getByRole("link", { name: /^To another phone/ }).click();
  await page.locator(".plate p", { hasText: "P1 dead" }).waitFor();
  await page.goto(`${server.url}#/record/${job}`);
  await page.locator("[data-record]").waitFor();
});

test("printed, only the record is on the paper that was chosen", async () => {
  const { page } = phone;
  await page.evaluate(() => Object.assign(window, { printed: 0, print: () => void ((window as unknown as { printed: number }).printed += 1) }));
  await page.getByRole("button", { name: "Hand over" }).click();
  await page.locator("label.unit", { hasText: "Letter" }).click();
  await page.locator(".record.paper-letter").waitFor();
  await page.getByRole("button", { name: "Print", exact: true }).click();
  await page.waitForFunction(() => (window as unknown as { printed: number }).printed === 1);
  assert.equal(await page.locator("dialog[open]").count(), 0);
  await page.emulateMedia({ media: "print" });
  for (const gone of [".plate", ".foot", ".still"]) assert.equal(await page.locator(gone).isVisible(), false, gone);
  assert.ok(await page.locator(".record-sign").isVisible());
  const ink = await page.locator(".record").evaluate((record) => getComputedStyle(record).color);
  assert.equal(ink, "rgb(0, 0, 0)");
  // PDF 32000-1: a page of 612 x 792 points is Letter, 595.28 x 841.89 is A4 (ISO 216).
  const sizes = async (): Promise<string[]> =>
    [...(await page.pdf({ preferCSSPageSize: true })).toString("latin1").matchAll(/MediaBox\s*\[([^\]]*)\]/g)].map(([, box = ""]) => box);
  const all = async (size: RegExp): Promise<void> => {
    const boxes = await sizes();
    assert.ok(boxes.length > 0 && boxes.every((box) => size.test(box)), boxes.join("; "));
  };
  await all(/^0 0 612 792$/);
  await page.emulateMedia({ media: null });
  await page.getByRole("button", { name: "Hand over" }).click();
  await page.locator("label.unit", { hasText: "A4" }).click();
  await page.locator(".record.paper-A4").waitFor();
  await shut(page);
  await all(/^0 0 59[45](\.\d+)? 84[12](\.\d+)?$/);
});

test("the next job at the panel ranks the earlier culprit higher, and says why", async () => {
  const { page } = phone;
  const ranked = async (): Promise<{ chance: string; why: string; place: number }> => {
    await page.getByRole("button", { name: /^Suspects/ }).click();
    const all = page.locator(".suspects > li");
    const mine = page.locator(".suspects > li", { hasText: FOUND });
    await mine.waitFor();
    const places = await all.locator(".marker").allInnerTexts();
    const answer = { chance: await mine.locator(".chance").innerText(), why: await mine.innerText(), place: places.indexOf("X1:2") };
    await shut(page);
    return answer;
  };
  const begin = async (of: string): Promise<void> => {
    await page.goto(`${server.url}#/panel/${encodeURIComponent(of)}/strips`);
    await page.locator(".strip").first().waitFor();
    await page.getByRole("button", { name: "Something is dead" }).click();
    await page.getByRole("group", { name: "P1" }).getByRole("button", { name: "Dead" }).click();
    await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
    await page.getByRole("link", { name: "What to measure" }).click();
    await page.locator(".prompt").waitFor();
  };
  await begin("demo:training-bench"); // the same panel without a history
  const without = await ranked();
  await begin(panel);
  const withIt = await ranked();
  assert.match(withIt.why, /found in an earlier job at this panel: the fuse of X1:2 has blown \(times: 1\), last \d{4}-\d\d-\d\d/);
  assert.doesNotMatch(without.why, /earlier job/);
  const percent = (chance: string): number => Number.parseInt(chance.replace("over", ""), 10);
  assert.ok(percent(withIt.chance) > percent(without.chance), `${withIt.chance} after ${without.chance}`);
  assert.ok(withIt.place <= without.place);

  // Records that came from elsewhere count as well; one that cannot be read does not.
  const paper = (id: string, document: string): object => ({
    id,
    panel: "demo:training-bench",
    title: "P1 dead",
    document,
    received: "2026-03-01T06:00:00.000Z",
  });
  const cause = { faults: ["X1:2=fuse-blown"] };
  await putRecords(page, "papers", [
    paper("paper-1", JSON.stringify({ format: "halfsplit-job", version: 1, title: "P1 dead", ended: "2026-02-01T06:00:00Z", cause })),
    paper("paper-2", "no job"),
  ]);
  await begin("demo:training-bench");
  const received = await ranked();
  assert.equal(received.chance, withIt.chance);
  assert.match(received.why, /\(times: 1\), last 2026-02-01/);
  assert.deepEqual(phone.complaints, []);
});

test("steps as they were kept before records were are told as they are", async () => {
  const { page } = phone;
  await putRecords(page, "jobs", [{ id: "old", panel: "demo:dosing-skid", title: "Dosing skid", started: "2026-03-01T06:00:00.000Z" }]);
  const when = "2026-03-01T06:00:01.000Z";
  await putRecords(page, "steps", [
    { job: "old", seq: 0, when, step: { kind: "condition", at: "normal" } },
    { job: "old", seq: 1, when, step: { kind: "saw", ref: "B2", sight: "dead" } },
    { job: "old", seq: 2, when, step: { kind: "reading", reading: { mode: "vdc", red: "X3:2.2/out", black: "X2:1", value: -0.02 } } },
    { job: "old", seq: 3, when, step: { kind: "repaired", place: "X3:2.2", repair: "fit a fuse" } },
  ]);
  await page.goto(`${server.url}#/record/old`);
  await page.locator("[data-part='record.steps']").waitFor();
  assert.match(await text(page, "[data-part='record.steps']"), /red on X3:2\.2\/out, black on X2:1\s+-0\.02 V/);
  assert.match(await text(page, "[data-part='record.cause']"), /fit a fuse/);
  assert.deepEqual((await readMemory(page)).stores["steps"]?.filter(({ job: of }) => of === "old").length, 4);
});

test("what was found otherwise becomes the drawing, the record keeps it, and undo brings it back", async () => {
  const { page } = phone;
  const own = await addPanel(page, server.url, "Bench two");
  await traceOn(page, server.url, own, "P1", hidden);
  await page.getByRole("button", { name: "Repaired: note it" }).click();
  const id = decodeURIComponent(/#\/job\/([^/]+)/.exec(page.url())?.[1] ?? "");
  const saved = (await readMemory(page)).stores["panels"]?.find((one) => one["id"] === own) as { text: string; version: number };
  const drawing = JSON.parse(saved.text) as { wires: { no: string }[]; found?: object[] };
  const wire = drawing.wires[drawing.wires.length - 1]?.no ?? "";
  const other = drawing.wires[drawing.wires.length - 2]?.no ?? "";
  // One was there before the repair, the other is of the repair.
  drawing.found = [
    { op: "remove-wire", wire, when: "2026-03-01T06:00:00Z" },
    { op: "remove-wire", wire: other, when: new Date().toISOString() },
  ];
  await putRecords(page, "panels", [{ ...saved, text: JSON.stringify(drawing) }]);
  await page.goto(`${server.url}#/leaving/${id}`);
  await page.locator("[data-otherwise]").getByText(`there is no wire ${wire}`).waitFor();
  assert.match(await text(page, "[data-otherwise]"), new RegExp(`as found.*\\n.* ${wire}\\n+as left.*\\n.* ${other}\\b`, "i"));
  assert.equal(await page.getByRole("link", { name: "Something is otherwise now" }).getAttribute("href"), `#/job/${id}/strip`);
  await page.getByRole("button", { name: "It stays so" }).click();
  await page.locator("[data-otherwise] .box").waitFor();
  const wiresNow = async (): Promise<{ found: number; has: boolean }> => {
    const now = (await readMemory(page)).stores["panels"]?.find((one) => one["id"] === own) as { text: string };
    const { found = [], wires } = JSON.parse(now.text) as { found?: object[]; wires: { no: string }[] };
    return { found: found.length, has: wires.some(({ no }) => no === wire) };
  };
  assert.deepEqual(await wiresNow(), { found: 0, has: false });
  await page.getByRole("link", { name: "Record" }).click();
  await page.locator("[data-part='record.found']", { hasText: `there is no wire ${wire}` }).waitFor();
  assert.match(await text(page, "[data-part='record.left']"), new RegExp(`there is no wire ${other}`));
  await page.goBack();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("button", { name: "It stays so" }).waitFor();
  assert.deepEqual(await wiresNow(), { found: 2, has: true });
  assert.deepEqual(phone.complaints, []);
});
