// The screens on which a panel is built, and the sheet that corrects one, in turn.
import type { Page } from "playwright-core";
import { buildAroundOneInstrument, wireOneInstrument } from "./build.ts";

export async function tourOfBuilding(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  const shut = (): Promise<void> => page.locator("dialog[open] .sheet-head .square").click();
  const thumb = await buildAroundOneInstrument(page, url, "Pump house 3", seen);
  await wireOneInstrument(thumb, seen);
  await page.locator("#block-X1\\:2 button").click();
  await page.getByRole("button", { name: "One more" }).click();
  await page.getByRole("button", { name: "All kinds of terminal" }).click();
  await page.locator(".sheet .guess").first().waitFor();
  await seen("build-blocks");
  await shut();
  await page.getByRole("button", { name: /^Parts/ }).click();
  await seen("build-parts");
  await page.locator(".choice", { hasText: "PT-102" }).click();
  await seen("build-a-part");
  await page.getByRole("button", { name: "The next ones are like this" }).click();
  await page.locator(".made li").first().waitFor();
  await seen("build-copies");
  await page.getByRole("button", { name: /^Make 1 more/ }).click();
  await page.locator(".sheet").waitFor({ state: "detached" });
  await page.getByRole("button", { name: /^Wires/ }).click();
  await page.locator(".choices .choice").first().click();
  await seen("build-a-wire");
  await shut();
  await page.getByRole("button", { name: /things to look at/ }).click();
  await seen("build-problems");
  await shut();
  await page.getByRole("link", { name: "Back" }).click();
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: "PT-102 B1" }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator(".outcome-look[data-healthy='false']").first().click();
  await page.locator("[data-steps='3']").waitFor();
  await page.locator(".prompt .lead .square").first().click();
  await page.locator(".sheet .choice").first().waitFor();
  await seen("wrong-here");
  await page.getByRole("button", { name: "A wire lands here that is not drawn" }).click();
  await page.locator(".sheet .strip, .sheet .terminals").first().waitFor();
  await seen("wrong-undrawn");
  await page.locator(".sheet").getByRole("button", { name: "Devices" }).click();
  await page.locator(".sheet .terminal").last().click();
  await page.locator("[data-noted]").waitFor();
  await seen("wrong-noted");
  await tourOfConditions(page, url, seen);
}

/** What the panel is called, and how things stand in a state of the plant. */
async function tourOfConditions(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  await page.goto(`${url}#/build/demo%3Adosing-skid`);
  await page.getByRole("button", { name: /^Dosing skid/ }).click();
  await page.locator("dialog[open] input").first().waitFor();
  await seen("build-rename");
  await page.locator("dialog[open] .sheet-head .square").click();
  await page.getByRole("button", { name: "Plant states" }).click();
  await page.locator(".choices .choice").first().waitFor();
  await seen("conditions");
  await page.locator(".choice", { hasText: "tank-low" }).click();
  await page.locator(".segment").first().waitFor();
  await seen("condition");
  await page.getByRole("group", { name: /^A3:0/ }).scrollIntoViewIfNeeded();
  await page.getByText("Levers on the strips").click();
  await seen("condition-outputs");
  await page.locator(".step-list").scrollIntoViewIfNeeded();
  await seen("condition-steps");
  await page.getByRole("button", { name: "Add a step" }).click();
  await page.locator("dialog[open] .choice").first().waitFor();
  await seen("condition-step");
  await page.locator("dialog[open] .sheet-head .square").click();
  await page.getByRole("button", { name: /^Remove the state/ }).scrollIntoViewIfNeeded();
  await seen("condition-end");
}
