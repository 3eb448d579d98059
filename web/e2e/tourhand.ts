// Handing over and scanning, in turn.
import type { Page } from "playwright-core";
import { asFile, picturesOfCodes } from "./hand.ts";

export async function tourOfHandingOver(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  await page.goto(`${url}#/share/panel/${encodeURIComponent("demo:training-bench")}`);
  await page.locator("[data-code='1'] canvas").waitFor();
  await page.getByRole("button", { name: "Save as file" }).click();
  await page.getByText(/^Saved as/).waitFor();
  await seen("hand-over-done");
  await page.goto(`${url}#/share/panel/${encodeURIComponent("demo:dosing-skid")}`);
  await page.getByText(/^No link/).waitFor();
  await seen("hand-over");
  const codes = await picturesOfCodes(page, "png");
  await page.goto(`${url}#/scan`);
  await page.locator("[data-no-camera]").waitFor();
  await seen("scan-no-camera");
  await page.getByLabel("Read a picture").setInputFiles(codes.slice(0, 4).map((code) => asFile(code)));
  await page.locator("[data-have='4']").waitFor();
  await seen("scan-some");
}
