// What a phone has kept is still there after an update: the memory as every
// earlier version wrote it is opened by this one.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { putRecords, readMemory, writeMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;

before(async () => {
  server = await serve();
});
after(() => server.stop());

async function onPhone(act: (phone: Phone, profile: Profile) => Promise<void>): Promise<void> {
  const profile = await newProfile();
  const phone = await profile.start();
  try {
    await act(phone, profile);
    assert.deepEqual(phone.complaints, []);
  } finally {
    await phone.context.close();
    await profile.remove();
  }
}

const step = (seq: number, second: number, rest: object): object => ({
  job: "job-1",
  seq,
  when: `2026-03-01T06:00:0${second}.000Z`,
  step: rest,
});

const CURRENT = 4;

// A version that nobody tests is a version that nobody can open.
for (let version = 1; version < CURRENT; version++) {
  test(`memory of version ${version} is opened by version ${CURRENT} with all that was in it`, () =>
    onPhone(async (phone) => {
      const { page } = phone;
      // A document of the same origin that is not the page.
      await page.goto(`${server.url}icon.svg`);
      const text = await readFile(new URL(`./fixtures/memory-${version}.json`, import.meta.url), "utf8");
      await writeMemory(page, JSON.parse(text));
      phone.complaints.length = 0; // of a missing favicon, since that was no page
      await page.goto(`${server.url}#/job/job-1/marks`);
      const pressed = (name: string, button: string): Promise<string | null> =>
        page.getByRole("group", { name }).getByRole("button", { name: button }).getAttribute("aria-pressed");
      await page.locator(".mark").first().waitFor();
      assert.equal(await pressed("PT-102 B2", "Dead"), "true");
      assert.equal(await pressed("LT-101 B1", "Works"), "true");
      assert.equal(await pressed("FT-103 B3", "Dead"), "false");

      const memory = await readMemory(page);
      assert.equal(memory.version, CURRENT);
      const { panels, jobs, steps, settings, ...rest } = memory.stores;
      assert.deepEqual(panels, [
        {
          id: "file:a",
          title: "Pump house",
          text: '{"format": "halfsplit-panel"}',
          added: "2026-02-01T06:00:00.000Z",
          version: 1,
          changed: "2026-02-01T06:00:00.000Z",
        },
      ]);
      assert.deepEqual(jobs, [
        { id: "job-1", panel: "demo:dosing-skid", title: "Dosing skid", started: "2026-03-01T06:00:00.000Z" },
        { id: "job-2", panel: "demo:training-bench", title: "Training bench", started: "2026-03-02T06:00:00.000Z" },
      ]);
      assert.deepEqual(steps, [
        step(0, 1, { kind: "condition", at: "normal" }),
        step(1, 2, { kind: "saw", ref: "B2", sight: "dead" }),
        step(2, 4, { kind: "saw", ref: "B1", sight: "works" }),
      ]);
      assert.deepEqual(
        settings?.filter(({ key }) => key === "at demo:dosing-skid"),
        [{ key: "at demo:dosing-skid", value: "normal" }],
      );
      const empty = ["arrivals", "drills", "images", "notes", "papers", "photos", "trash", "versions"];
      assert.deepEqual(rest, Object.fromEntries(empty.map((store) => [store, []])));
    }));
}

test("a page that is older than the memory says so and harms nothing", () =>
  onPhone(async (phone) => {
    const { page } = phone;
    await page.goto(`${server.url}icon.svg`);
    await writeMemory(page, {
      version: CURRENT + 1,
      stores: { panels: { keyPath: "id", records: [{ id: "file:later" }] } },
    });
    phone.complaints.length = 0;
    await page.goto(`${server.url}#/job/job-1/marks`);
    const alert = page.getByRole("alert").filter({ hasText: "newer version" });
    await alert.waitFor();
    assert.deepEqual((await readMemory(page)).stores, { panels: [{ id: "file:later" }] });
  }));

test("a step that is shown is on disk: the page dies at once and nothing is lost", async () => {
  const profile = await newProfile();
  let phone = await profile.start();
  try {
    await phone.page.goto(server.url);
    await phone.page.locator(".card").first().waitFor();
    await putRecords(phone.page, "jobs", [
      { id: "job-2", panel: "demo:training-bench", title: "Training bench", started: "2026-03-02T06:00:00.000Z" },
    ]);
    await phone.page.goto(`${server.url}#/job/job-2/marks`);
    await phone.page.locator(".mark").first().waitFor();
    const first = phone.page.locator(".mark").first().getByRole("button", { name: "Works" });
    await first.click();
    await phone.page.locator('.mark:first-child .toggle-works[aria-pressed="true"]').waitFor();
    await phone.context.close();
    phone = await profile.start();
    await phone.page.goto(`${server.url}#/job/job-2/marks`);
    await phone.page.locator('.mark:first-child .toggle-works[aria-pressed="true"]').waitFor();
    await phone.page.getByRole("button", { name: "Undo" }).click();
    await phone.page.locator('.mark:first-child .toggle-works[aria-pressed="false"]').waitFor();
    const { steps } = (await readMemory(phone.page)).stores;
    assert.deepEqual(
      steps?.map(({ job, seq, step: done }) => [job, seq, (done as { kind: string }).kind]),
      [
        ["job-2", 0, "saw"],
        ["job-2", 1, "undo"],
      ],
    );
  } finally {
    await phone.context.close();
    await profile.remove();
  }
});
