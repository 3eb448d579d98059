// The offline proof. A phone opens the page once; then the server is stopped
// and the network is off, for good. On it a hidden fault is traced to its
// terminal by answering the page's own prompts, with a reload and a new browser
// process in the middle; and a what-if is asked.
import assert from "node:assert/strict";
import { test } from "node:test";
import { drawn } from "./eventually.ts";
import { newProfile, type Phone } from "./phone.ts";
import { serve } from "./server.ts";
import { answer, readPrompt, taken } from "./technician.ts";

const hidden = { panel: "demo:dosing-skid", fault: "W211=broken", at: "normal" };
const culprit = "W211";
const dead = "PT-102 B2";
const works = "LT-101 B1";
const MAX_READINGS = 20;

/** Everything below happens without a server. */
async function journey(removeServiceWorker: boolean): Promise<{ readings: string[]; complaints: string[] }> {
  const server = await serve();
  const profile = await newProfile();
  let phone: Phone | undefined;
  const complaints: string[] = [];
  try {
    if (removeServiceWorker) {
      server.change((path) => (path === "/sw.js" ? { status: 404, type: "text/plain", body: "" } : null));
    }
    phone = await profile.start();
    await phone.page.goto(server.url);
    await phone.page.locator(".card").first().waitFor();
    if (!removeServiceWorker) await phone.page.locator("[data-news=offline]").waitFor();
    await server.stop();
    await phone.context.setOffline(true);
    await phone.page.reload();
    await phone.page.locator(".card").first().waitFor();
    // It is said once.
    await phone.page.getByRole("link", { name: /^Dosing skid/ }).waitFor();
    await phone.page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await drawn(phone.page);
    assert.equal(await phone.page.locator("[data-news=offline]").count(), 0);
    complaints.push(...phone.complaints);
    await phone.context.close();

    phone = await profile.start();
    await phone.context.setOffline(true);
    const readings = await trace(phone, server.url);
    complaints.push(...phone.complaints);
    await phone.context.close();

    phone = await profile.start();
    await phone.context.setOffline(true);
    await afterwards(phone, server.url);
    complaints.push(...phone.complaints);
    return { readings, complaints };
  } finally {
    await phone?.context.close();
    await server.stop();
    await profile.remove();
  }
}

/** From the list of panels to the culprit, with a reload after the first step. */
async function trace({ page }: Phone, url: string): Promise<string[]> {
  await page.goto(url);
  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: dead }).getByRole("button", { name: "Dead" }).click();
  await page.getByRole("group", { name: works }).getByRole("button", { name: "Works" }).click();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator("[data-steps='3']").waitFor();
  const readings: string[] = [];
  while ((await page.locator(".prompt").count()) > 0) {
    assert.ok(readings.length < MAX_READINGS, `no end in sight: ${readings.join("; ")}`);
    await fitsOneScreen({ page });
    readings.push(await answer(page, hidden));
    if (readings.length === 1) await reloadKeepsPlace({ page });
  }
  assert.equal(await page.getByRole("heading", { level: 1 }).innerText(), "Found");
  assert.equal(await page.locator(".culprit .marker").innerText(), culprit);
  return readings;
}

/** A reload, as after a locked screen: same place, same prompt, every step. */
async function reloadKeepsPlace({ page }: Pick<Phone, "page">): Promise<void> {
  const before = { steps: await taken(page), title: await page.getByRole("heading", { level: 1 }).innerText() };
  const prompt = (await page.locator(".prompt").count()) > 0 ? await readPrompt(page) : null;
  await page.reload();
  await page.locator(`[data-steps='${before.steps}']`).waitFor();
  assert.equal(await page.getByRole("heading", { level: 1 }).innerText(), before.title);
  if (prompt) assert.deepEqual(await readPrompt(page), prompt);
}

/** A prompt is one screen: nothing to scroll, neither down nor sideways. */
async function fitsOneScreen({ page }: Pick<Phone, "page">): Promise<void> {
  const over = await page.evaluate(() => {
    const body = document.querySelector(".body");
    const root = document.documentElement;
    return {
      down: Math.max(root.scrollHeight - innerHeight, (body?.scrollHeight ?? 0) - (body?.clientHeight ?? 0)),
      sideways: root.scrollWidth - innerWidth,
    };
  });
  assert.ok(over.down <= 0 && over.sideways <= 0, `the prompt goes beyond the screen: ${JSON.stringify(over)}`);
}

/** Another day: the job is still there, found; and a what-if is asked. */
async function afterwards({ page }: Phone, url: string): Promise<void> {
  await page.goto(url);
  await page.getByRole("link", { name: /^Go on: Dosing skid/ }).click();
  await page.locator(".culprit").waitFor();
  assert.equal(await page.locator(".culprit .marker").innerText(), culprit);

  await page.goto(`${url}#/panel/${encodeURIComponent(hidden.panel)}/strips`);
  await page.locator("#block-X3\\:2 button").click();
  await page.locator(".sheet .choice", { hasText: "lever" }).first().click();
  const affected = page.locator(".one-dead", { hasText: "PT-102" });
  await affected.first().waitFor();
  assert.ok((await affected.first().locator(".why").count()) > 0, "no reason is given");
  await page.getByRole("link", { name: "On the strip" }).click();
  await page.locator(".volts-moved").first().waitFor();
}

test("a hidden fault is found with the server gone and the network off", async (t) => {
  const { readings, complaints } = await journey(false);
  t.diagnostic(`${readings.length} readings: ${readings.join("; ")}`);
  assert.ok(readings.length >= 2, "too few readings to prove a reload in the middle");
  assert.deepEqual(complaints, []);
});

test("the same fails when the service worker is removed", async () => {
  await assert.rejects(journey(true), /ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED/);
});
