// A job of isolating has an end that a person gives it: until then it is gone on
// with, afterwards it is read; undo takes the end back, and so does more work.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { addPanel, openRecords } from "./attach.ts";
import { leaveInPlace } from "./leave.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;
let panel: string;
let job: string;

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  panel = await addPanel(phone.page, server.url, "Bench");
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

/** What the panel's records say of the job, and where a tap leads. */
async function listed(): Promise<{ said: string; leads: string }> {
  const { page } = phone;
  await openRecords(page, server.url, panel);
  const row = page.locator(".card-row > .choice", { hasText: "Isolate" });
  await row.waitFor();
  return { said: await row.innerText(), leads: (await row.getAttribute("href")) ?? "" };
}

async function backToIt(): Promise<void> {
  await phone.page.goto(`${server.url}#/job/${job}/marks`);
  await phone.page.locator(".check").first().waitFor();
}

test("while it lasts it is listed as not ended", async () => {
  const { page } = phone;
  await page.goto(`${server.url}#/isolate/${encodeURIComponent(panel)}/K1`);
  await page.getByRole("button", { name: "What must be opened" }).click();
  await page.locator(".check input").first().click();
  await page.locator(".check-done").first().waitFor();
  job = decodeURIComponent(/#\/job\/([^/]+)/.exec(page.url())?.[1] ?? "");
  await page.locator("[data-not-closed]", { hasText: /not ticked as closed again: \w+/ }).waitFor();
  const { said, leads } = await listed();
  assert.match(said, /not ended/);
  assert.equal(leads, `#/job/${job}/marks`);
});

test("finished it is a record, and what was left is said there", async () => {
  const { page } = phone;
  await backToIt();
  await leaveInPlace(page, "X1:1 to X1:3");
  await page.getByRole("button", { name: "The work is finished" }).click();
  await page.locator("[data-finished=true]", { hasText: "Temporary changes not back yet: 1" }).waitFor();
  const { said, leads } = await listed();
  assert.match(said, /\d+ min/);
  assert.doesNotMatch(said, /not ended/);
  assert.equal(leads, `#/record/${job}`);
  await page.goto(`${server.url}${leads}`);
  await page.locator("[data-part='record.head']", { hasText: /ended/i }).waitFor();
  assert.equal(await page.locator("[data-part]").first().getAttribute("data-part"), "record.temporary");
});

test("undo takes the end back, and so does what is ticked after it", async () => {
  const { page } = phone;
  await backToIt();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator("[data-finished=false]").waitFor();
  assert.match((await listed()).said, /not ended/);
  await backToIt();
  await page.getByRole("button", { name: "The work is finished" }).click();
  await page.locator("[data-finished=true]").waitFor();
  await page.locator(".check input").nth(1).click();
  await page.locator("[data-finished=false]").waitFor();
  assert.match((await listed()).said, /not ended/);
  // Said to be back is no new work.
  await backToIt();
  await page.getByRole("button", { name: "The work is finished" }).click();
  await page.locator("[data-finished=true]").waitFor();
  await page.goto(`${server.url}#/record/${job}`);
  await page.getByRole("button", { name: "Is back" }).click();
  await page.locator(".still").waitFor({ state: "detached" });
  const { said } = await listed();
  assert.doesNotMatch(said, /not ended|not back yet/);
  assert.deepEqual(phone.complaints, []);
});
