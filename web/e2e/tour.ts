// Every screen of the page in turn, for pictures and for accessibility.
import type { Page } from "playwright-core";
import { drawn } from "./eventually.ts";
import { tourOfBuilding } from "./tourbuild.ts";
import { tourOfWhatComesIn } from "./tourreceive.ts";
import { tourOfHandingOver } from "./tourhand.ts";
import { tourOfWhatIsKept } from "./tourkeep.ts";
import { tourOfTheRecord } from "./tourrecord.ts";
import { tourOfShortForms } from "./tourshort.ts";

/** How many outcomes may be tapped before a search must have ended. */
const MAX_STEPS = 25;

/** Visits every screen and says its name once it is quiet. */
export async function tour(page: Page, url: string, look: (name: string) => Promise<void>): Promise<void> {
  const seen = async (name: string): Promise<void> => {
    await drawn(page); // a sheet that was just opened is in front
    await look(name);
  };
  const tap = (role: "link" | "button", name: string | RegExp): Promise<void> =>
    page.getByRole(role, { name, exact: true }).first().click();
  // Behind a sheet there may be a notice with a button of the same name.
  const shut = (): Promise<void> => page.locator("dialog[open] .sheet-head .square").click();
  await page.goto(url);
  await page.locator(".card").first().waitFor();
  await seen("panels");
  await page.getByRole("link", { name: /^Screen and vibration/ }).click();
  await page.getByRole("switch").first().waitFor();
  await seen("settings");
  await page.goto(url);
  await drill(page, seen);
  await tourOfShortForms(page, url, seen);
  await page.goto(url);
  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  await page.locator(".strip .volts:not(:empty)").first().waitFor();
  await seen("strips");
  await page.locator("#block-X3\\:2 button").click();
  await page.locator(".sheet .choice").first().waitFor();
  await seen("block");
  await page.locator(".sheet .choice", { hasText: "lever" }).first().click();
  await page.locator(".one").first().waitFor();
  await seen("whatif-list");
  await tap("link", "On the strip");
  await page.locator(".volts-moved").first().scrollIntoViewIfNeeded();
  await seen("whatif-strip");
  await tap("link", "Back");
  await tap("link", "Devices");
  await page.locator(".grade").first().waitFor();
  await seen("devices");
  await page.getByRole("searchbox").fill("PT");
  await seen("search");
  await page.getByRole("searchbox").fill("");
  await tap("link", "Meter");
  await page.getByRole("button", { name: "X3:2.2/out", exact: true }).click();
  await page.getByRole("button", { name: "X2:1", exact: true }).click();
  await page.locator(".face-display[data-busy=false] .face-figure", { hasText: "V" }).waitFor();
  await seen("meter");
  await tap("button", "Mode");
  await seen("meter-mode");
  await shut();
  await tap("button", "Under each fault");
  await page.locator(".sheet .figure").first().waitFor();
  await seen("meter-faults");
  await shut();
  await tap("button", "My meter");
  await seen("my-meter");
  await shut();
  await tap("link", "Back");
  await tap("link", "Isolate");
  // The screen before has a search field too.
  await page.getByRole("heading", { level: 1, name: "Isolate" }).waitFor();
  await page.getByRole("searchbox").fill("M1");
  await page.locator(".choices .choice").first().click();
  await seen("isolate-targets");
  await tap("button", "What must be opened");
  await page.locator(".check").first().waitFor();
  await page.locator(".check input").first().click();
  await page.locator(".check-done").first().waitFor();
  await seen("isolate");
  await page.locator(".check-done").last().scrollIntoViewIfNeeded();
  await page.locator(".pair").last().scrollIntoViewIfNeeded();
  await seen("isolate-prove");
  await page.locator("[data-finished]").scrollIntoViewIfNeeded();
  await seen("isolate-finish");
  await tap("button", "The work is finished");
  await page.locator("[data-finished=true]").waitFor();
  await page.locator("[data-finished]").scrollIntoViewIfNeeded();
  await seen("isolate-finished");
  await tap("button", /^Temporary/);
  await seen("temporary");
  await shut();
  await tap("link", "Back");
  await tap("button", "Something is dead");
  await page.locator(".mark").first().waitFor();
  await seen("marks-empty");
  await page.getByRole("group", { name: "PT-102 B2" }).getByRole("button", { name: "Dead" }).click();
  await page.getByRole("group", { name: "LT-101 B1" }).getByRole("button", { name: "Works" }).click();
  await seen("marks");
  await tap("link", "What to measure");
  await page.locator("[data-steps='3']").waitFor();
  let steps = 3;
  const pass = async (outcome: string): Promise<void> => {
    await page.locator(outcome).first().click();
    await page.locator(`[data-steps='${++steps}']`).waitFor();
  };
  if ((await page.locator(".outcome-look").count()) > 0) await seen("look");
  while ((await page.locator(".outcome-look").count()) > 0) await pass(".outcome-look[data-healthy='false']");
  await seen("prompt");
  await tap("button", "Another figure");
  for (const key of ["1", "3", "Decimal point", "2"]) await tap("button", key);
  await seen("keypad");
  await tap("button", "Decimal point");
  await seen("keypad-refused");
  await shut();
  await tap("button", /^Suspects/);
  await seen("suspects");
  await shut();
  await tap("button", "Steps so far");
  await seen("steps");
  await shut();
  await tap("link", "On the strip");
  await page.locator(".probe").first().waitFor();
  await seen("trace-strip");
  await tap("link", "Back");
  await page.locator(`[data-steps='${steps}']`).waitFor();
  // Towards the block that the tour is about.
  while (steps < MAX_STEPS && (await page.locator(".prompt").count()) > 0) {
    const likely = page.locator(".outcome", { hasText: "X3:2" });
    await pass((await likely.count()) > 0 ? ".outcome:has-text('X3:2')" : ".outcome");
  }
  await page.locator(".outcome-page").waitFor();
  await seen("outcome");
  await tourOfTheRecord(page, seen);
  await tourOfBuilding(page, url, seen);
  await tourOfWhatComesIn(page, url, seen);
  await tourOfHandingOver(page, url, seen);
  await tourOfWhatIsKept(page, url, seen);
}

/** A drill from the list to its debrief, and what was learned. */
async function drill(page: Page, seen: (name: string) => Promise<void>): Promise<void> {
  const shut = (): Promise<void> => page.locator("dialog[open] .sheet-head .square").click();
  await page.getByRole("link", { name: /^Drills/ }).click();
  await page.locator(".choices .choice").first().waitFor();
  await seen("drills");
  await page.getByRole("button", { name: /^The lamp that stays dark/ }).click();
  await page.locator(".complaint").waitFor();
  await seen("drill-call");
  await page.getByRole("link", { name: "Panel", exact: true }).click();
  await page.locator(".strip").first().waitFor();
  await seen("drill-panel");
  await page.locator("#block-X1\\:2 button").click();
  await page.locator("dialog[open] .choice").first().waitFor();
  await seen("drill-work");
  await shut();
  await page.getByRole("link", { name: "Meter", exact: true }).click();
  await page.getByRole("button", { name: "X1:2/out", exact: true }).click();
  await page.getByRole("button", { name: "X2:1", exact: true }).click();
  await page.locator(".whys").first().waitFor();
  await seen("drill-why");
  await page.locator(".whys button").first().click();
  await page.locator("[data-steps='1']").waitFor();
  await page.getByRole("button", { name: "Call it" }).click();
  await page.locator("dialog[open]").waitFor();
  await seen("drill-call-it");
  await page.getByRole("button", { name: "give up" }).click();
  await page.getByRole("button", { name: "I was lost" }).waitFor();
  await seen("drill-rating");
  await page.getByRole("button", { name: "I was lost" }).click();
  await page.locator("[data-result]").waitFor();
  await seen("debrief");
  await page.getByRole("link", { name: "Back" }).click();
  await page.getByRole("link", { name: "What I have done" }).click();
  await page.locator(".choices .choice").first().waitFor();
  await seen("attempts");
}
