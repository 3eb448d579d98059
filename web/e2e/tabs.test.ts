// Two tabs on one phone never undo each other.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { addPanel, newerDrawing, offerDrawing, openRecords } from "./attach.ts";
import { readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;
let second: Page;
const complaints: string[] = [];

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  second = await phone.context.newPage();
  second.on("pageerror", (error) => complaints.push(String(error)));
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

test("a step taken in one tab is shown in the other, and both go on from it", async () => {
  await addPanel(phone.page, server.url, "Our bench");
  await phone.page.getByRole("button", { name: "Something is dead" }).click();
  await phone.page.locator(".mark").first().waitFor();
  await second.goto(phone.page.url());
  await second.locator(".mark").first().waitFor();
  const pressed = (page: Page, index: number): Promise<void> =>
    page.locator(`.mark:nth-child(${index + 1}) [aria-pressed="true"]`).waitFor();
  const toggle = (page: Page, index: number): Promise<void> =>
    page.locator(".mark").nth(index).getByRole("button", { name: "Works" }).click();
  await toggle(phone.page, 0);
  await pressed(second, 0);
  await toggle(second, 1);
  await pressed(phone.page, 1);
  await Promise.all([toggle(phone.page, 2), toggle(second, 3)]);
  for (const page of [phone.page, second]) for (const index of [0, 1, 2, 3]) await pressed(page, index);
  const steps = (await readMemory(phone.page)).stores["steps"] ?? [];
  assert.deepEqual(
    steps.map(({ seq }) => seq),
    [0, 1, 2, 3, 4],
  );
});

test("a tab that slept through a save keeps its own beside, and says so", async () => {
  const panel = await addPanel(phone.page, server.url, "Pump house");
  await openRecords(phone.page, server.url, panel);
  // A phone puts tabs to sleep; this one hears nothing of what others do.
  await second.addInitScript(() => {
    Object.defineProperty(BroadcastChannel.prototype, "onmessage", { set: () => {} });
  });
  await second.reload();
  await openRecords(second, server.url, panel);
  // What it compares with is what it read before the other one saved.
  await offerDrawing(second, "Pump house B");
  await newerDrawing(phone.page, "Pump house A");
  await phone.page.locator("[data-version='2']").waitFor();
  await second.getByRole("button", { name: "Take theirs over" }).click();
  await second.locator("[data-done]", { hasText: "Another tab saved this panel" }).waitFor();

  const { panels, versions } = (await readMemory(second)).stores;
  const mine = panels?.filter(({ title }) => String(title).startsWith("Pump house"));
  assert.deepEqual(
    mine?.map(({ id, title, version, split }) => ({ same: id === panel, title, version, split })),
    [
      { same: true, title: "Pump house A", version: 2, split: undefined },
      { same: false, title: "Pump house B", version: 1, split: { of: panel, why: "tab" } },
    ].sort((a) => (mine?.[0]?.["id"] === panel ? 0 : a.same ? 1 : -1)),
  );
  assert.deepEqual(
    versions?.filter(({ panel: of }) => of === panel).map(({ version, title }) => [true, version, title]),
    [
      [true, 1, "Pump house"],
      [true, 2, "Pump house A"],
    ],
  );
  await second.getByRole("link", { name: "Open the panel" }).click();
  await second.getByRole("heading", { level: 1, name: "Pump house B" }).waitFor();
});

test("an earlier drawing is used again, and the one it replaced is among the earlier ones", async () => {
  const { page } = phone;
  await page.getByRole("button", { name: "Use this one again" }).click();
  await page.locator("[data-version='3']").waitFor();
  await page.getByRole("heading", { level: 1, name: /^Pump house$/ }).waitFor();
  await page.locator(".away b", { hasText: "Pump house A" }).waitFor();
  assert.deepEqual([...phone.complaints, ...complaints], []);
});
