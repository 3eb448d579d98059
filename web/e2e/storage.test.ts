// What a phone has kept is still there after an update: a database as the first
// version wrote it is opened by this one.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

/** Writes a database of version 1: the steps of a job stand inside its record. */
function writeVersion1(page: Page): Promise<void> {
  return page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open("halfsplit", 1);
        open.onerror = () => reject(open.error);
        open.onupgradeneeded = () => {
          const db = open.result;
          db.createObjectStore("panels", { keyPath: "id" });
          db.createObjectStore("jobs", { keyPath: "id" }).createIndex("panel", "panel");
          db.createObjectStore("settings");
        };
        open.onsuccess = () => {
          const db = open.result;
          const tx = db.transaction(["panels", "jobs", "settings"], "readwrite");
          tx.objectStore("jobs").put({
            id: "job-1",
            panel: "demo:dosing-skid",
            title: "Dosing skid",
            started: "2026-03-01T06:00:00.000Z",
            steps: [
              { when: "2026-03-01T06:00:01.000Z", step: { kind: "condition", at: "normal" } },
              { when: "2026-03-01T06:00:02.000Z", step: { kind: "saw", ref: "B2", sight: "dead" } },
              { when: "2026-03-01T06:00:03.000Z", step: { kind: "of no version", x: 1 } },
              "not a step",
              {
                when: "2026-03-01T06:00:04.000Z",
                step: { kind: "saw", ref: "B1", sight: "works" },
              },
            ],
          });
          tx.objectStore("jobs").put({
            id: "job-2",
            panel: "demo:training-bench",
            title: "Training bench",
            started: "2026-03-02T06:00:00.000Z",
          });
          tx.objectStore("settings").put("normal", "at demo:dosing-skid");
          tx.oncomplete = () => {
            db.close();
            resolve();
          };
          tx.onerror = () => reject(tx.error);
        };
      }),
  );
}

function readAll(page: Page): Promise<{ version: number; jobs: unknown[]; steps: unknown[]; setting: unknown }> {
  return page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const open = indexedDB.open("halfsplit");
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const db = open.result;
          const tx = db.transaction(["jobs", "steps", "settings"]);
          const jobs = tx.objectStore("jobs").getAll();
          const steps = tx.objectStore("steps").getAll();
          const setting = tx.objectStore("settings").get("at demo:dosing-skid");
          tx.oncomplete = () => {
            const all = { version: db.version, jobs: jobs.result, steps: steps.result, setting: setting.result };
            db.close();
            resolve(all);
          };
        };
      }),
  );
}

test("a job kept by version 1 is opened by version 2 with its steps", async () => {
  const { page } = phone;
  // A document of the same origin that is not the page.
  await page.goto(`${server.url}icon.svg`);
  await writeVersion1(page);
  phone.complaints.length = 0; // of a missing favicon, since that was no page
  await page.goto(`${server.url}#/job/job-1/marks`);
  const pressed = (name: string, button: string): Promise<string | null> =>
    page.getByRole("group", { name }).getByRole("button", { name: button }).getAttribute("aria-pressed");
  await page.locator(".mark").first().waitFor();
  assert.equal(await pressed("PT-102 B2", "Dead"), "true");
  assert.equal(await pressed("LT-101 B1", "Works"), "true");
  assert.equal(await pressed("FT-103 B3", "Dead"), "false");

  const step = (seq: number, second: number, rest: object): unknown => ({
    job: "job-1",
    seq,
    when: `2026-03-01T06:00:0${second}.000Z`,
    step: rest,
  });
  assert.deepEqual(await readAll(page), {
    version: 2,
    jobs: [
      { id: "job-1", panel: "demo:dosing-skid", title: "Dosing skid", started: "2026-03-01T06:00:00.000Z" },
      { id: "job-2", panel: "demo:training-bench", title: "Training bench", started: "2026-03-02T06:00:00.000Z" },
    ],
    steps: [
      step(0, 1, { kind: "condition", at: "normal" }),
      step(1, 2, { kind: "saw", ref: "B2", sight: "dead" }),
      step(2, 4, { kind: "saw", ref: "B1", sight: "works" }),
    ],
    setting: "normal",
  });
  assert.deepEqual(phone.complaints, []);
});

test("a step that is shown is on disk: the page dies at once and nothing is lost", async () => {
  const { page } = phone;
  await page.goto(`${server.url}#/job/job-2/marks`);
  await page.locator(".mark").first().waitFor();
  const first = page.locator(".mark").first().getByRole("button", { name: "Works" });
  await first.click();
  await page.locator('.mark:first-child .toggle-works[aria-pressed="true"]').waitFor();
  await phone.context.close();
  phone = await profile.start();
  await phone.page.goto(`${server.url}#/job/job-2/marks`);
  await phone.page.locator('.mark:first-child .toggle-works[aria-pressed="true"]').waitFor();
  await phone.page.getByRole("button", { name: "Undo" }).click();
  await phone.page.locator('.mark:first-child .toggle-works[aria-pressed="false"]').waitFor();
  const steps = (await readAll(phone.page)).steps as { job: string; seq: number; step: unknown }[];
  assert.deepEqual(
    steps.filter(({ job }) => job === "job-2").map(({ seq, step }) => [seq, (step as { kind: string }).kind]),
    [
      [0, "saw"],
      [1, "undo"],
    ],
  );
});
