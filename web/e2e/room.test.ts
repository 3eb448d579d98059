// How safe the phone's memory is, and what happens when it is full. The quota is
// set through the browser's own protocol.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { openRecords, takePhoto } from "./attach.ts";
import { eventually } from "./eventually.ts";
import { photoWithPlace } from "./exif.ts";
import { putRecords, readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;

before(async () => {
  server = await serve();
  profile = await newProfile();
});
after(async () => {
  await server.stop();
  await profile.remove();
});

interface Roomy extends Phone {
  /** In bytes; null for as much as the browser gives. */
  allow(bytes: number | null): Promise<void>;
}

/**
 * Runs act on the phone with so much room. The browser remembers for a while how
 * much there was, so that the room is set before the page opens its memory.
 */
async function withRoom(bytes: number | null, act: (phone: Roomy) => Promise<void>): Promise<void> {
  const phone = await profile.start();
  try {
    const browser = await phone.context.newCDPSession(phone.page);
    const allow = async (quotaSize: number | null): Promise<void> => {
      const { origin } = new URL(server.url);
      await browser.send("Storage.overrideQuotaForOrigin", { origin, ...(quotaSize !== null && { quotaSize }) });
    };
    await allow(bytes);
    await act({ ...phone, allow });
    assert.deepEqual(phone.complaints, []);
  } finally {
    await phone.context.close();
  }
}

const marks = "#/job/job-1/marks";

test("from four fifths on it is said, and not before", () =>
  withRoom(null, async ({ page }) => {
    await page.goto(server.url);
    await page.locator("[data-news=offline]").waitFor();
    // For the tests that follow: something is kept.
    await putRecords(page, "jobs", [
      { id: "job-1", panel: "demo:dosing-skid", title: "Dosing skid", started: "2026-03-01T06:00:00.000Z" },
    ]);
    await openRecords(page, server.url, "demo:dosing-skid");
    await takePhoto(page, await photoWithPlace(page, 1600, 1200));
    // Chromium tells every page that there is plenty, whatever there is; others tell the truth.
    const tells = async (usage: number): Promise<void> => {
      await page.addInitScript((used) => {
        StorageManager.prototype.estimate = () => Promise.resolve({ usage: used, quota: 1e9 });
      }, usage);
      await page.goto(server.url);
      await page.reload();
      await page.locator(".card").nth(1).waitFor();
    };
    await tells(0.79e9);
    await page.goto(`${server.url}#/kept`);
    await page.locator("p.note[data-room]", { hasText: "790.0 MB of 1.0 GB" }).waitFor();
    await page.goto(server.url);
    assert.equal(await page.locator(".caution-line[data-room]").count(), 0);
    await tells(0.81e9);
    await page.locator(".caution-line[data-room]", { hasText: "Nearly full" }).waitFor();
  }));

const NO_ROOM = 1000;

test("a step that finds no room is held until there is some, and then written", () =>
  withRoom(NO_ROOM, async ({ page, allow }) => {
    const count = async (store: string): Promise<number> => ((await readMemory(page)).stores[store] ?? []).length;
    await page.goto(server.url + marks);
    await page.locator(".mark").first().waitFor();
    await page.locator(".mark").first().getByRole("button", { name: "Dead" }).click();
    const full = page.getByRole("alert").filter({ hasText: "No room is left" });
    await full.waitFor();
    assert.equal(await page.locator('[aria-pressed="true"]').count(), 0, "it is shown and not on disk");
    await full.getByRole("button", { name: "Try again" }).click();
    await full.waitFor();
    assert.equal(await count("steps"), 0);

    // The way out: photos go for good without a note in the trash, which would not fit.
    await full.getByRole("link", { name: "Make room" }).click();
    await page.locator("[data-largest]").getByRole("button", { name: "Delete for good" }).click();
    await page.locator(".sheet").getByRole("button", { name: "Delete for good" }).click();
    await page.locator("[data-largest]").waitFor({ state: "detached" });
    assert.equal(await count("images"), 0);
    await full.waitFor();
    await allow(null);
    await full.getByRole("button", { name: "Try again" }).click();
    await full.waitFor({ state: "detached" });
    await eventually(async () => assert.equal(await count("steps"), 1));
  }));

test("a backup is made although there is no room", () =>
  withRoom(NO_ROOM, async ({ page }) => {
    await page.goto(`${server.url}#/kept`);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Back up to a file" }).click(),
    ]);
    const text = await readFile(await download.path(), "utf8");
    assert.equal((JSON.parse(text) as { jobs: unknown[] }).jobs.length, 1);
    await page.getByText("was handed to the browser").waitFor();
  }));

test("what is left out on the person's word is left out, and the page goes on", () =>
  withRoom(NO_ROOM, async ({ page, allow }) => {
    await page.goto(server.url + marks);
    await page.locator(".mark").first().waitFor();
    const dead = page.locator(".mark").nth(1).getByRole("button", { name: "Dead" });
    await dead.click();
    await page.getByRole("button", { name: "Leave it out" }).click();
    await page.getByRole("button", { name: "Leave it out" }).waitFor({ state: "detached" });
    assert.equal(await dead.getAttribute("aria-pressed"), "false");
    await allow(null);
    await dead.click();
    await page.locator('.mark:nth-child(2) [aria-pressed="true"]').waitFor();
  }));

const states: { what: string; persisted: boolean | null; grants: boolean; state: string; text: RegExp }[] = [
  { what: "kept", persisted: true, grants: true, state: "kept", text: /Kept for good/ },
  { what: "not kept, and not granted", persisted: false, grants: false, state: "may-clear", text: /may clear it/ },
  { what: "not said", persisted: null, grants: false, state: "unknown", text: /does not say/ },
];
for (const { what, persisted, grants, state, text } of states) {
  test(`storage that is ${what} is said with what to do, and asked for after the first entry only`, async () => {
    const own = await newProfile();
    const { context, page, complaints } = await own.start();
    try {
      await page.addInitScript(
        ([kept, granted]) => {
          const asked = (): number => Number(sessionStorage.getItem("asked") ?? 0);
          const answer = (value: boolean | null): Promise<boolean> =>
            value === null ? Promise.reject(new Error("not here")) : Promise.resolve(value);
          StorageManager.prototype.persisted = () => answer(kept);
          StorageManager.prototype.persist = () => {
            sessionStorage.setItem("asked", String(asked() + 1));
            return Promise.resolve(granted);
          };
        },
        [persisted, grants] as const,
      );
      const asked = (): Promise<number> => page.evaluate(() => Number(sessionStorage.getItem("asked") ?? 0));
      await page.goto(`${server.url}#/kept`);
      await page.locator(`[data-keeping=${state}]`).waitFor();
      assert.match(await page.locator("[data-keeping]").innerText(), text);
      assert.equal(await asked(), 0, "asked before there was anything to keep");
      await page.goto(`${server.url}#/panel/demo:dosing-skid/strips`);
      for (let i = 0; i < 2; i++) {
        await page.getByRole("button", { name: "Something is dead" }).click();
        await page.locator(".mark").first().waitFor();
        await page.reload();
        await page.locator(".mark").first().waitFor();
        await page.getByRole("link", { name: "Back" }).click();
      }
      const wanted = state === "may-clear" ? 1 : 0;
      await page.waitForFunction((n) => Number(sessionStorage.getItem("asked") ?? 0) === n, wanted);
      await page.goto(`${server.url}#/kept`);
      await page.locator(`[data-keeping=${state}]`).waitFor();
      if (state === "may-clear") {
        await page.getByRole("button", { name: "Ask the browser to keep it" }).click();
        await page.getByText("The browser has not agreed").waitFor();
        assert.equal(await asked(), 2);
      }
      assert.deepEqual(complaints, []);
    } finally {
      await context.close();
      await own.remove();
    }
  });
}
