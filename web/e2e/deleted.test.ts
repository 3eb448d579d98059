// What is removed: hidden at once, back with one tap, gone after thirty days.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { addPanel, openRecords, takePhoto, writeNote } from "./attach.ts";
import { photoWithPlace } from "./exif.ts";
import { putRecords, readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

const DAY = 24 * 60 * 60 * 1000;

let server: Served;
let profile: Profile;
let phone: Phone;
let panel: string;

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  const { page } = phone;
  panel = await addPanel(page, server.url, "Our bench");
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.locator(".mark").first().waitFor();
  await openRecords(page, server.url, panel);
  await writeNote(page, "Ferrules are crimped twice");
  await takePhoto(page, await photoWithPlace(page, 400, 300));
  await putRecords(page, "drills", [
    { id: "drill-1", panel, title: "Drill 7", started: "2026-03-01T06:00:00.000Z", record: { readings: 4 } },
  ]);
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

async function counts(): Promise<Record<string, number>> {
  const { stores } = await readMemory(phone.page);
  return Object.fromEntries(Object.entries(stores).map(([name, list]) => [name, list.length]));
}

const all = { panels: 1, jobs: 1, steps: 1, notes: 1, photos: 1, images: 1, drills: 1 };
const none = { panels: 0, jobs: 0, steps: 0, notes: 0, photos: 0, images: 0, drills: 0 };

function assertCounts(found: Record<string, number>, want: Record<string, number>): void {
  for (const [name, count] of Object.entries(want)) assert.equal(found[name], count, name);
}

test("a removed panel hides its jobs, and comes back with all of them", async () => {
  const { page } = phone;
  await page.goto(server.url);
  await page.getByRole("link", { name: /^Go on: Our bench/ }).waitFor();
  await page.getByRole("button", { name: "Remove Our bench" }).click();
  await page.locator(".card-row").waitFor({ state: "detached" });
  await page.getByRole("link", { name: /^Go on/ }).waitFor({ state: "detached" });
  assertCounts(await counts(), { ...all, trash: 1 });
  await page.goto(`${server.url}#/deleted`);
  await page.locator("[data-away=panel]").getByRole("button", { name: "Bring back" }).click();
  await page.locator("[data-away=panel]").waitFor({ state: "detached" });
  await page.goto(server.url);
  await page.getByRole("link", { name: /^Go on: Our bench/ }).waitFor();
  assertCounts(await counts(), { ...all, trash: 0 });
});

test("a job, a note and a drill are brought back too", async () => {
  const { page } = phone;
  await openRecords(page, server.url, panel);
  await page.getByRole("button", { name: /^Remove the job of/ }).click();
  await page.getByText(/^Removed: Our bench/).waitFor();
  await page.getByRole("button", { name: "Remove Ferrules are crimped twice" }).click();
  await page.getByText(/^Removed: Ferrules/).waitFor();
  await putRecords(page, "trash", [
    { kind: "drill", id: "drill-1", title: "Drill 7", when: new Date().toISOString() },
  ]);
  await page.reload();
  await page.locator(".previews").waitFor(); // read at once with the notes
  assert.equal(await page.locator(".note-text").count(), 0);
  await page.goto(`${server.url}#/deleted`);
  for (const kind of ["job", "note", "drill"]) {
    await page.locator(`[data-away=${kind}]`).getByRole("button", { name: "Bring back" }).click();
    await page.locator(`[data-away=${kind}]`).waitFor({ state: "detached" });
  }
  await openRecords(page, server.url, panel);
  await page.locator(".note-text").waitFor();
  await page.getByRole("button", { name: /^Remove the job of/ }).waitFor();
  assertCounts(await counts(), { ...all, trash: 0 });
});

test("after thirty days a removed panel is gone, with all that hung on it, and not a day before", async () => {
  const { page } = phone;
  const since = async (days: number): Promise<void> => {
    const when = new Date(Date.now() - days * DAY).toISOString();
    await putRecords(page, "trash", [{ kind: "panel", id: panel, title: "Our bench", when }]);
    await page.goto(`${server.url}#/deleted`);
    await page.reload();
    await page.getByRole("heading", { name: "Deleted" }).waitFor();
  };
  await since(29.9);
  await page.locator("[data-away=panel]").waitFor();
  assertCounts(await counts(), { ...all, trash: 1 });
  await since(30.1);
  await page.getByText("Nothing is here.").waitFor();
  assertCounts(await counts(), { ...none, trash: 0 });
  assert.deepEqual(phone.complaints, []);
});
