// A battery that dies in the middle of saves. The browser is killed at a place
// chosen by a seeded generator, started again, and asked what it still has: all
// that was ever shown, and at most the save in flight beyond it.
//
// CRASHES=200 SEED=7 for the long run ("make soak").
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { addPanel, openRecords } from "./attach.ts";
import { putRecords, readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

const CRASHES = Number(process.env["CRASHES"] ?? 20);
const SEED = Number(process.env["SEED"] ?? 1);

/** How many saves a browser may live through. */
const MOST_SAVES = 12;

let server: Served;
let profile: Profile;
let panel: string;

before(async () => {
  server = await serve();
  profile = await newProfile();
  const phone = await profile.start();
  panel = await addPanel(phone.page, server.url, "Our bench");
  const [record] = (await readMemory(phone.page)).stores["panels"] ?? [];
  assert.ok(record);
  // Two drawings that take turns, so that there is always an earlier one to use again.
  const text = String(record["text"]);
  await putRecords(phone.page, "panels", [{ ...record, title: "Drawing 2", text, version: 2 }]);
  await putRecords(phone.page, "versions", [
    { panel, version: 1, title: "Drawing 1", text, saved: record["added"] },
  ]);
  await putRecords(phone.page, "jobs", [{ id: "job-1", panel, title: "Our bench", started: "2026-03-01T06:00:00.000Z" }]);
  await phone.context.close();
});
after(async () => {
  await server.stop();
  await profile.remove();
});

/** Park and Miller's minimal standard generator (Comm. ACM 31, 1988): the same kills for a seed. */
function generator(seed: number): () => number {
  let state = seed % 2147483647 || 1;
  return () => (state = (state * 16807) % 2147483647) / 2147483647;
}

/** Saves one thing after another; shown is called with each once the screen shows it. */
type Saving = (page: Page, saves: number) => Promise<void>;

/** Marks the first device dead, works, dead …: each a step of the job. */
const marking: Saving = (page, saves) =>
  page.evaluate(async (n) => {
    const shown = (window as unknown as { shown: () => Promise<void> }).shown;
    for (let i = 0; i < n; i++) {
      const buttons = [...document.querySelectorAll<HTMLButtonElement>(".mark:first-child button")];
      const next = buttons.find((button) => button.getAttribute("aria-pressed") !== "true");
      next?.click();
      while (next?.getAttribute("aria-pressed") !== "true") {
        await new Promise((again) => requestAnimationFrame(again));
      }
      await shown();
    }
  }, saves);

/** Uses the last drawing again and again: each a version of the panel. */
const drawing: Saving = (page, saves) =>
  page.evaluate(async (n) => {
    const shown = (window as unknown as { shown: () => Promise<void> }).shown;
    const version = (): number => Number(document.querySelector("[data-version]")?.getAttribute("data-version"));
    for (let i = 0; i < n; i++) {
      const before = version();
      document.querySelector<HTMLButtonElement>("[data-version] .away button")?.click();
      while (version() === before) await new Promise((again) => requestAnimationFrame(again));
      await shown();
    }
  }, saves);

interface Count {
  steps: number;
  version: number;
}

/** What is on disk, after checking that it hangs together. */
async function onDisk({ page }: Phone): Promise<Count> {
  const { panels = [], versions = [], jobs = [], steps = [] } = (await readMemory(page)).stores;
  assert.equal(panels.length, 1, "a panel was lost");
  assert.equal(jobs.length, 1, "a job was lost");
  const version = Number(panels[0]?.["version"]);
  assert.match(String(panels[0]?.["text"]), /halfsplit-panel/);
  const last = versions.at(-1);
  assert.equal(last?.["version"], version - 1, "the drawing before is missing");
  assert.notEqual(last?.["title"], panels[0]?.["title"], "a save is half there");
  assert.deepEqual(
    steps.map(({ seq }) => seq),
    steps.map((_, i) => i),
    "there is a gap in the steps",
  );
  return { steps: steps.length, version };
}

test(`${CRASHES} kills in the middle of saves lose at most the one in flight (seed ${SEED})`, async (t) => {
  const random = generator(SEED);
  let before: Count = { steps: 0, version: 2 };
  let inFlight = 0;
  for (let kill = 0; kill < CRASHES; kill++) {
    const kind = random() < 0.6 ? "steps" : "version";
    const lives = Math.floor(random() * MOST_SAVES);
    const phone = await profile.start();
    const { page } = phone;
    let shown = 0;
    let reached = (): void => {};
    const enough = new Promise<void>((resolve) => (reached = resolve));
    await page.exposeBinding("shown", () => {
      if (++shown >= lives) reached();
    });
    if (kind === "steps") {
      await page.goto(`${server.url}#/job/job-1/marks`);
      await page.locator(".mark").first().waitFor();
    } else {
      await openRecords(page, server.url, panel);
      await page.locator("[data-version] .away").waitFor();
    }
    assert.deepEqual(await onDisk(phone), before, `before kill ${kill + 1}`);
    if (lives === 0) reached();
    // It goes on saving while it is killed.
    const saving = (kind === "steps" ? marking : drawing)(page, 10 * MOST_SAVES).catch(() => {});
    await enough;
    await new Promise((resolve) => setTimeout(resolve, Math.floor(random() * 30)));
    await profile.crash(phone);
    await saving;

    const again = await profile.start();
    await again.page.goto(`${server.url}icon.svg`);
    const now = await onDisk(again);
    await again.context.close();
    const gained = now[kind] - before[kind];
    const other = kind === "steps" ? "version" : "steps";
    assert.equal(now[other], before[other], `kill ${kill + 1} moved what nobody saved`);
    assert.ok(
      gained === shown || gained === shown + 1,
      `kill ${kill + 1} (${kind}): ${shown} were shown, ${gained} are on disk`,
    );
    inFlight += gained - shown;
    before = now;
  }
  t.diagnostic(`${before.steps} steps and ${before.version - 2} drawings saved; ${inFlight} saves in flight were on disk`);
  assert.ok(before.steps > 0 && before.version > 2, "nothing was saved at all");
});
