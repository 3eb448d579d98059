// Drills for a few minutes, and one made from a what-if, in turn.
import type { Page } from "playwright-core";

export async function tourOfShortForms(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  for (const form of ["possible", "predict", "choose"]) {
    await page.goto(`${url}#/short/${encodeURIComponent("demo:training-bench")}/${form}/3`);
    await page.locator(`[data-form=${form}]`).waitFor(); // not the exercise before it
    await seen(`short-${form}`);
    for (const exercise of await page.locator(".exercise").all()) await exercise.locator("button").first().click();
    await page.getByRole("button", { name: "Grade it" }).click();
    await page.locator("[data-right]").waitFor();
    await seen(`short-${form}-graded`);
  }
  await page.goto(`${url}#/author/${["demo:training-bench", "W17=broken"].map(encodeURIComponent).join("/")}`);
  await page.getByLabel("Name of the drill").fill("Dark again");
  await page.getByLabel("The complaint, in the caller's words").fill("The lamp for running is dark.");
  await page.getByRole("button", { name: "How hard is it?" }).click();
  await page.locator("[data-reckoned]").waitFor();
  await seen("author");
}
