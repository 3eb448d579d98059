// A panel around one dead instrument is built from nothing on a phone without a
// signal, the dead instrument is traced to its fuse, and the drawing is corrected
// on the way.
import assert from "node:assert/strict";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { buildAroundOneInstrument, wireOneInstrument } from "./build.ts";
import { phoneAlone, type Alone } from "./alone.ts";
import { answer, taken } from "./technician.ts";

/** What the way from nothing to the culprit may cost: choice, a tap a second is a minute. */
const MOST_TAPS = 60;

let phone: Alone;
let folder: string;

before(async () => {
  folder = await mkdtemp(join(tmpdir(), "halfsplit-build-"));
  phone = await phoneAlone();
});
after(async () => {
  await phone.end();
  await rm(folder, { recursive: true, force: true });
});

interface Kept {
  id: string;
  title: string;
  text: string;
  drawn?: { base: string; steps: unknown[][] };
}

interface Found {
  op: string;
  wire?: string;
  part?: { ref: string; kind: string };
  when: string;
}

/** The panels as they are on the phone's disk. */
function kept(page: Page): Promise<Kept[]> {
  return page.evaluate(
    () =>
      new Promise<Kept[]>((resolve, reject) => {
        const open = indexedDB.open("halfsplit");
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const all = open.result.transaction("panels").objectStore("panels").getAll();
          all.onsuccess = () => resolve(all.result as Kept[]);
        };
      }),
  );
}

const steps = (page: Page): Promise<number> => taken(page);

test("from nothing to the blown fuse in 60 taps", async (t) => {
  const { page, url } = phone;
  const thumb = await buildAroundOneInstrument(page, url, "Pump house 3");
  await wireOneInstrument(thumb);
  const built = thumb.taps;
  const [panel] = await kept(page);
  assert.ok(panel, "nothing was kept");
  const file = join(folder, "panel.json");
  await writeFile(file, panel.text);
  const hidden = { panel: file, fault: "X1:1=fuse-blown", at: "normal" };

  await thumb.link("Back");
  await thumb.button("Something is dead");
  await thumb.tap(page.getByRole("group", { name: "PT-102 B1" }).getByRole("button", { name: "Dead" }));
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await thumb.link("What to measure");
  const taps = { count: 0 };
  await page.locator(".prompt, .outcome-page").first().waitFor();
  while ((await page.locator(".outcome-page").count()) === 0) {
    assert.ok(thumb.taps + taps.count < 2 * MOST_TAPS, "the search does not end");
    t.diagnostic(await answer(page, hidden, taps));
    await page.locator(".prompt, .outcome-page").first().waitFor();
  }
  assert.match(await page.locator(".culprit").first().innerText(), /fuse of X1:1 has blown/);
  const all = thumb.taps + taps.count;
  t.diagnostic(`${built} taps to build, ${all} in all`);
  assert.ok(all <= MOST_TAPS, `${all} taps`);
});

test("undo leads back to the empty panel, step by step, also after a reload", async () => {
  const { page, url } = phone;
  const [panel] = await kept(page);
  assert.ok(panel?.drawn);
  await page.goto(`${url}#/build/${encodeURIComponent(panel.id)}`);
  await page.reload();
  await page.locator(".bar").waitFor();
  let left = await steps(page);
  assert.equal(left, panel.drawn.steps.length);
  while (left > 0) {
    await page.getByRole("button", { name: "Undo" }).click();
    await page.locator(`[data-steps='${--left}']`).waitFor();
  }
  assert.equal((await kept(page))[0]?.text, panel.drawn.base);
  assert.ok(await page.getByRole("button", { name: "Undo" }).isDisabled());
});

test("two taps correct the drawing during a search, which goes on with the panel as found", async () => {
  const { page, url } = phone;
  await page.goto(`${url}#/panel/demo%3Adosing-skid/strips`);
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: "PT-102 B2" }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator(".prompt").waitFor();
  const before = await taken(page);
  await page.getByRole("link", { name: "On the strip" }).click();
  // A block of one piece of metal: both its wires may end elsewhere.
  await page.locator("#block-X3\\:1 button").click();
  await page.getByRole("button", { name: /^The drawing is wrong at X3:1/ }).first().click();
  await page.getByRole("button", { name: /does not (begin|end) at X3:1/ }).first().waitFor();
  await page.locator("dialog[open] .sheet-head .square").click();
  await page.locator("#block-X3\\:2 button").click();
  await page.getByRole("button", { name: "The drawing is wrong at X3:2.2/out" }).click();
  await page.getByRole("button", { name: /^Something sits in W211,/ }).click();
  await page.getByLabel("What sits in W211?").fill("fuse 1 A T");
  await page.locator(".sheet .guess").first().click();
  const noted = page.locator("[data-noted]");
  await noted.waitFor();
  await page.getByRole("button", { name: "Go on" }).click();
  await page.locator(".strip").first().waitFor();

  const copy = (await kept(page)).find(({ title }) => title.startsWith("Dosing skid"));
  assert.ok(copy, "the demo panel was not copied");
  const document = JSON.parse(copy.text) as { wires: { no: string }[]; parts: { ref: string }[]; found: Found[] };
  const found = document.found.map(({ op, wire, part }) => [op, wire ?? part?.kind].filter(Boolean).join(" "));
  assert.deepEqual(found, ["move-wire W211", "add-wire", "add-part fuse"]);
  assert.match(document.found[0]?.when ?? "", /^\d{4}-/);
  const fuse = document.found.find(({ part }) => part)?.part?.ref;
  assert.ok(!document.parts.some(({ ref }) => ref === fuse), "the drawing was changed, too");
  // The job is the copy's now, with every step it had.
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator(`[data-steps='${before}']`).waitFor();
  await page.reload();
  await page.locator(`[data-steps='${before}']`).waitFor();
  await page.goto(`${url}#/panel/${encodeURIComponent(copy.id)}/records`);
  await page.getByRole("heading", { name: "Earlier jobs" }).waitFor();
  assert.deepEqual(phone.complaints, []);
});

test("a wire that goes elsewhere and a terminal that is not there are noted too, and taken back with a tap", async () => {
  const { page, url } = phone;
  await page.goto(`${url}#/panel/demo%3Atraining-bench/strips`);
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: "P1" }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator(".prompt").waitFor();
  await page.getByRole("link", { name: "On the strip" }).click();
  const found = async (): Promise<string[]> => {
    const copy = (await kept(page)).find(({ title }) => title.startsWith("Training bench"));
    const document = JSON.parse(copy?.text ?? "{}") as { found?: { op: string; wire?: string; block?: string }[] };
    return (document.found ?? []).map(({ op, wire, block }) => [op, wire ?? block].filter(Boolean).join(" "));
  };
  const wrongAt = async (block: string, point: string): Promise<void> => {
    await page.locator(`#block-${block.replace(":", "\\:")} button`).click();
    await page.getByRole("button", { name: `The drawing is wrong at ${point}` }).first().click();
  };
  await wrongAt("X1:3", "X1:3/out");
  await page.getByRole("button", { name: "W19 does not begin at X1:3/out but elsewhere" }).click();
  await page.locator("dialog[open]").getByRole("button", { name: "X1:2/out", exact: true }).click();
  await page.locator("[data-noted]").waitFor();
  await page.getByRole("button", { name: "Go on" }).click();
  await page.locator(".strip").first().waitFor();
  assert.deepEqual(await found(), ["move-wire W19"]);
  await wrongAt("X1:3", "X1:3/out");
  await page.getByRole("button", { name: "There is no terminal X1:3" }).click();
  await page.locator("[data-noted]").waitFor();
  const both = await found();
  assert.equal(both[0], "move-wire W19");
  assert.ok(both.some((one) => one.startsWith("remove-block")), both.join(", "));
  await page.locator("dialog[open]").getByRole("button", { name: "Undo" }).click();
  await page.locator("dialog[open]").waitFor({ state: "detached" });
  assert.deepEqual(await found(), ["move-wire W19"]);
  assert.deepEqual(phone.complaints, []);
});
