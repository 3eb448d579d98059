// A technician gives a panel another state of the plant: what stands how is set with
// the thumb, what should be on follows from it, and undo takes it back.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Locator } from "playwright-core";
import { phoneAlone, type Alone } from "./alone.ts";
import { addPanel } from "./attach.ts";
import { Thumb } from "./build.ts";
import { eventually } from "./eventually.ts";

let phone: Alone;
let panel: string;

before(async () => {
  phone = await phoneAlone();
  panel = await addPanel(phone.page, phone.url, "Pump house 4");
});
after(() => phone.end());

const at = (view: "build" | "panel", rest = ""): string => `${phone.url}#/${view}/${encodeURIComponent(panel)}${rest}`;

/** The row of one of the bench's two lamps. */
const lamp = (ref: "P1" | "P2"): Locator =>
  phone.page.locator(".choice", { has: phone.page.locator("b", { hasText: new RegExp(`^${ref}$`) }) }).locator(".grade");

const states = (): Promise<string[]> => phone.page.locator(".condition select option").allInnerTexts();

test("a state is added, a button held in it, and the panel is another one there", async () => {
  const { page } = phone;
  const thumb = new Thumb(page);
  await page.goto(at("build"));
  await page.locator(".bar").waitFor();
  await thumb.button("Plant states");
  await page.locator(".choice", { hasText: "stopped" }).waitFor();
  await thumb.type("Another state", "stopped");
  await page.getByRole("alert").filter({ hasText: "There is a state stopped already" }).waitFor();
  assert.ok(await page.getByRole("button", { name: "Add this state" }).isDisabled());
  await thumb.type("Another state", "stop held");
  await thumb.button("Add this state");
  await page.getByRole("heading", { name: "stop held" }).waitFor();
  // It begins as normal does: S2 is pressed and let go.
  assert.deepEqual(await page.locator(".step-list li span").allInnerTexts(), ["S2 start: press", "S2 start: release"]);
  const stop = page.getByRole("group", { name: /^S1 stop/ });
  assert.deepEqual(await stop.getByRole("button").allInnerTexts().then((all) => all.map((text) => text.trim())), ["not pressed", "pressed"]);
  await thumb.tap(stop.getByRole("button", { name: "pressed", exact: true }));
  await page.locator("[data-steps='2']").waitFor();
  await stop.locator("[aria-pressed=true]", { hasText: /^ ?pressed/ }).waitFor();
  await thumb.button("Done");
  await thumb.button("Done");
  await thumb.link("Back");
  await page.goto(at("panel", "/devices"));
  await page.locator(".condition select").waitFor();
  // By hand: normal holds K1 over its own contact, and P1 is on over 23-24. S1 held
  // opens 21-22 before S2 is pressed, so that K1 stays off and 31-32 feeds P2.
  await lamp("P1").filter({ hasText: /^lit$/ }).waitFor();
  assert.equal(await lamp("P2").innerText(), "dark");
  await page.locator(".condition select").selectOption("stop held");
  await lamp("P2").filter({ hasText: /^lit$/ }).waitFor();
  assert.equal(await lamp("P1").innerText(), "dark");
});

test("a reload keeps it, and undo takes it back step by step", async () => {
  const { page } = phone;
  await page.reload();
  await lamp("P2").filter({ hasText: /^lit$/ }).waitFor();
  assert.deepEqual(await states(), ["normal", "stopped", "stop held", "power-off"]);
  await page.goto(at("build"));
  await page.locator("[data-steps='2']").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator("[data-steps='1']").waitFor();
  await page.getByRole("button", { name: "Plant states" }).click();
  await page.locator(".choice", { hasText: "stop held" }).click();
  await page.getByRole("group", { name: /^S1 stop/ }).locator("[aria-pressed=true]", { hasText: "not pressed" }).waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator("[data-steps='0']").waitFor();
  await page.getByRole("heading", { name: "Plant states" }).waitFor(); // what was looked into is gone
  await page.goto(at("panel", "/devices"));
  await page.locator(".condition select").waitFor();
  assert.deepEqual(await states(), ["normal", "stopped", "power-off"]);
});

test("a state gets another name, its steps and its figures, and goes", async () => {
  const { page } = phone;
  const thumb = new Thumb(page);
  await page.goto(at("build"));
  await thumb.button("Plant states");
  await page.locator(".choice", { hasText: "normal" }).click();
  await page.getByRole("heading", { name: "normal" }).waitFor();
  assert.equal(await page.getByRole("button", { name: /^Remove the state/ }).count(), 0, "every panel has normal");
  await thumb.button("Done");
  await page.locator(".choice", { hasText: "stopped" }).click();
  await thumb.type("Name", "standing");
  await thumb.button("Write down: Name");
  await page.getByRole("heading", { name: "standing" }).waitFor();
  await thumb.button("Add a step");
  await thumb.button("S1 stop: press");
  await page.locator(".step-list li", { hasText: "S1 stop: press" }).waitFor();
  await thumb.button("Leave out: S1 stop: press");
  await page.locator(".step-list").waitFor({ state: "detached" });
  await page.getByText("Feeds and breakers").click();
  await thumb.tap(page.getByRole("group", { name: /^F0 supply/ }).getByRole("button", { name: "off" }));
  await page.getByText("Feeds and breakers: 1 not as usual").waitFor();
  await thumb.button("Remove the state standing");
  await page.getByRole("heading", { name: "Plant states" }).waitFor();
  await eventually(async () => assert.deepEqual(await page.locator(".choices .choice b").allInnerTexts(), ["normal"]));
});

test("the panel gets another name", async () => {
  const { page } = phone;
  const thumb = new Thumb(page);
  await page.goto(phone.url);
  await page.goto(at("build"));
  await thumb.button(/^Pump house 4/);
  await thumb.type("Name", "Pump house 5");
  await thumb.type("About", "");
  await thumb.button("Write down");
  await page.getByRole("heading", { name: /^Pump house 5/ }).waitFor();
  await page.goto(phone.url);
  await page.getByRole("link", { name: /^Pump house 5/ }).waitFor();
  assert.deepEqual(phone.complaints, []);
});
