// What goes from phone to phone: handed out as a file, taken in as one, and the
// answers a person gives on the way.
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";

/** The file that the phone hands out of a panel. */
export async function handOut(page: Page, url: string, panel: string): Promise<string> {
  await page.goto(`${url}#/share/panel/${encodeURIComponent(panel)}`);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save as file" }).click(),
  ]);
  return readFile(await download.path(), "utf8");
}

/** Opens a file on the first screen; ends on what came in, or where it was refused. */
export async function takeIn(page: Page, url: string, name: string, text: string | Buffer): Promise<void> {
  await page.goto(url);
  await page.locator(".card").first().waitFor();
  await page
    .getByLabel("Add a panel from a file")
    .setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  await page.locator("[data-received], [role=alert]").first().waitFor();
}

/** The panel a screen is about, from its address. */
export const panelAt = (page: Page): string => decodeURIComponent(/#\/panel\/([^/]+)/.exec(page.url())?.[1] ?? "");

/** Colours a wire by hand, as one does while mending a drawing. */
export async function colourWire(page: Page, url: string, panel: string, wire: string, colour: string): Promise<void> {
  await page.goto(`${url}#/build/${encodeURIComponent(panel)}`);
  await page.getByRole("button", { name: /^Wires/ }).click();
  await page.locator(".choices .choice", { hasText: new RegExp(`^${wire}\\D`) }).first().click();
  const field = page.locator("dialog[open]").getByRole("textbox", { name: "Colour" });
  await field.fill(colour);
  await field.press("Enter");
  await page.locator("dialog[open]").waitFor({ state: "detached" });
}
