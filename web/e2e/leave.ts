// What a technician does from a search to the record of the job.
import type { Page } from "playwright-core";
import { answer } from "./technician.ts";

/** How many prompts may be answered before a search must have ended. */
const MAX_STEPS = 25;

interface Hidden {
  panel: string;
  fault: string;
  at: string;
}

/** Marks a device dead on a kept panel and follows the prompts to the culprit. */
export async function traceOn(page: Page, url: string, panel: string, dead: string, hidden: Hidden): Promise<void> {
  await page.goto(`${url}#/panel/${encodeURIComponent(panel)}/strips`);
  await page.locator(".strip").first().waitFor();
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: dead }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  for (let step = 0; ; step++) {
    await page.locator("[data-steps]").waitFor();
    if ((await page.locator(".prompt").count()) === 0) break;
    if (step === MAX_STEPS) throw new Error("the search does not end");
    await answer(page, hidden);
  }
  await page.locator(".outcome-page").waitFor();
}

/** On the prompt or the screen before leaving: one more thing is in place. */
export async function leaveInPlace(page: Page, where: string, how = "Jumper put in"): Promise<void> {
  await page.getByRole("button", { name: /^Temporary/ }).click();
  await page.getByRole("textbox").fill(where);
  await page.getByRole("button", { name: how }).click();
  await page.locator("dialog[open] .chosen", { hasText: where }).waitFor();
  await shut(page);
}

export const shut = (page: Page): Promise<void> => page.locator("dialog[open] .sheet-head .square").click();

/** Before leaving: says something in words of one's own. */
export async function sayInWords(page: Page, button: string | RegExp, text: string): Promise<void> {
  await page.getByRole("button", { name: button }).click();
  await page.locator("dialog[open] textarea").fill(text);
  await page.locator("dialog[open]").getByRole("button", { name: "Keep it" }).click();
  await page.locator(".said", { hasText: text.split("\n")[0] ?? "" }).first().waitFor();
}
