// The meter and the isolation of a target, on a phone whose server is gone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { phoneAlone, type Alone } from "./alone.ts";
import type { Isolate, Meter } from "../src/core/api.ts";
import { json } from "./technician.ts";

let phone: Alone;

before(async () => {
  phone = await phoneAlone();
});
after(() => phone.end());

const demo = "demo:dosing-skid";
const points = ["--red", "X3:2.2/out", "--black", "X2:1"];
const meter = (mode: string, ...args: string[]): Promise<Meter> =>
  json(["meter", demo, "--mode", mode, ...args, "--json"]) as Promise<Meter>;

const figure = (page: Page): Promise<string> =>
  page.locator(".face-display[data-busy=false] output.face-figure:not(:text('–'))").innerText();

test("two touches on the strip show what the core computes, and a reload keeps them", async () => {
  const { page, url } = phone;
  await page.goto(`${url}#/panel/${encodeURIComponent(demo)}/strips`);
  await page.getByRole("link", { name: "Meter" }).click();
  await page.getByRole("button", { name: "X3:2.2/out", exact: true }).click();
  await page.getByRole("button", { name: "X2:1", exact: true }).click();
  const want = await meter("vdc", ...points);
  assert.equal(await figure(page), want.shown);
  await page.reload();
  assert.equal(await figure(page), want.shown);

  await page.getByRole("button", { name: "Swap probes" }).click();
  await page.locator(".face-figure", { hasText: "-" }).waitFor();
  assert.equal(await figure(page), `-${want.shown}`);
  await page.getByRole("button", { name: "Swap probes" }).click();

  // Under each fault: a blown fuse shows something else, and can be measured on.
  await page.getByRole("button", { name: "Under each fault" }).click();
  const blown = page.getByRole("button", { name: /the fuse of X3:2\.2 has blown/ });
  const predicted = await blown.locator(".figure").innerText();
  await blown.click();
  const under = await meter("vdc", ...points, "--fault", "X3:2.2=fuse-blown");
  assert.equal(predicted, under.shown);
  await page.locator(".under").waitFor();
  assert.equal(await figure(page), under.shown);
  assert.notEqual(under.shown, want.shown);
});

test("ohms on a live circuit is refused, with the reason", async () => {
  const { page, url } = phone;
  const route = ["meter", demo, "ohms", "X3:2.2/out", "X2:1", ""].map(encodeURIComponent).join("/");
  await page.goto(`${url}#/${route}`);
  const refused = await meter("ohms", ...points);
  assert.ok(refused.refused, "the command does not refuse it");
  await page.locator(".face-said", { hasText: refused.refused }).waitFor();
});

test("a clamp asks for a wire, and shows its current", async () => {
  const { page, url } = phone;
  const route = ["meter", demo, "clamp", "", "", ""].map(encodeURIComponent).join("/");
  await page.goto(`${url}#/${route}`);
  await page.getByRole("button", { name: "X3:2.2/out", exact: true }).click();
  await page.locator(".sheet .choice", { hasText: "W211" }).click();
  const want = await meter("clamp", "--red", "W211");
  assert.equal(await figure(page), want.shown);
});

test("isolating: every line is ticked, kept over a reload, and nothing is closed while a jumper is in", async () => {
  const { page, url } = phone;
  await page.goto(`${url}#/panel/${encodeURIComponent(demo)}/strips`);
  await page.getByRole("link", { name: "Isolate" }).click();
  await page.getByRole("heading", { level: 1, name: "Isolate" }).waitFor();
  await page.getByRole("searchbox").fill("M1");
  await page.locator(".choices .choice").first().click();
  await page.getByRole("button", { name: "What must be opened" }).click();
  const lines = page.locator(".check input");
  await lines.first().waitFor();
  const plan = (await json(["isolate", demo, "M1", "--json"])) as Isolate;
  assert.ok(plan.open.length > 0 && plan.prove.length > 0, "the command isolates nothing");
  // Opened, tester, every pair, tester again, closed again, function.
  assert.equal(await lines.count(), 2 * plan.open.length + plan.prove.length + 3);
  for (let i = 0; i < plan.open.length; i++) {
    await lines.nth(i).click();
    await page.locator(`[data-steps='${3 + i}']`).waitFor(); // on disk, then shown
  }
  await page.reload();
  await lines.first().waitFor();
  assert.ok(await lines.first().isChecked(), "a tick was lost");

  await page.getByRole("button", { name: /^Temporary/ }).click();
  await page.getByRole("textbox").fill("X1:3 to X1:4");
  await page.getByRole("button", { name: "Jumper put in" }).click();
  await page.locator(".chosen", { hasText: "X1:3 to X1:4" }).waitFor();
  await page.locator("dialog[open] .sheet-head .square").click();
  const closing = lines.nth((await lines.count()) - 2);
  await page.locator("dialog[open]").waitFor({ state: "detached" });
  assert.ok(await closing.isDisabled(), "it could be closed with a jumper in");
  await page.getByRole("button", { name: /^Temporary/ }).click();
  await page.getByRole("button", { name: "Is back" }).click();
  await page.locator("dialog[open] .sheet-head .square").click();
  await page.waitForFunction(() => {
    const boxes = document.querySelectorAll<HTMLInputElement>(".check input");
    return boxes[boxes.length - 2]?.disabled === false;
  });
  assert.deepEqual(phone.complaints, []);
});
