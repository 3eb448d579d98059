// From the culprit to the record of the job, in turn; begins where a search ends.
import type { Page } from "playwright-core";
import { leaveInPlace, sayInWords, shut } from "./leave.ts";

export async function tourOfTheRecord(page: Page, seen: (name: string) => Promise<void>): Promise<void> {
  await page.getByRole("button", { name: /^Repaired: note it|^It was this/ }).first().click();
  await page.getByRole("link", { name: "Before you leave" }).click();
  await page.getByRole("heading", { name: "Checks before leaving" }).waitFor();
  await page.locator(".check", { hasText: "All else on" }).waitFor();
  await seen("leaving");
  await leaveInPlace(page, "X3:2 to X3:4");
  await page.locator(".choices .choice").first().click();
  await page.locator(".said").first().waitFor();
  await page.getByRole("button", { name: "Just that" }).click();
  await page.locator(".check input").first().click();
  await page.locator(".check-done").waitFor();
  await page.evaluate(() => scrollTo(0, 0));
  await seen("leaving-said");
  await page.locator(".checks").scrollIntoViewIfNeeded();
  await seen("leaving-checks");
  await page.getByRole("button", { name: /^In the caller's words/ }).click();
  await page.locator("dialog[open] textarea").waitFor();
  await seen("leaving-words");
  await shut(page);
  await sayInWords(page, /^In the caller's words/, "Pressure shows zero since this morning.");
  await page.locator(".minutes").scrollIntoViewIfNeeded();
  await seen("leaving-minutes");
  await page.getByRole("link", { name: "Record" }).click();
  await page.locator("[data-record]").waitFor();
  await seen("record");
  await page.locator("[data-part='record.steps']").scrollIntoViewIfNeeded();
  await seen("record-steps");
  await page.getByRole("button", { name: "Hand over" }).click();
  await page.locator("dialog[open] .choice").first().waitFor();
  await seen("hand-over");
  await shut(page);
  await page.getByRole("link", { name: "Back" }).click();
  await page.getByRole("heading", { name: "Earlier jobs" }).waitFor();
  await page.locator(".earlier-cause").first().waitFor();
  await seen("earlier-jobs");
}
