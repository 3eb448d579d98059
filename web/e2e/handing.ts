// What goes from phone to phone: handed out as a file, taken in as one, and the
// answers a person gives on the way.
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";

/** The file that the phone hands out of a panel, or of one of its jobs or attempts at drills. */
export async function handOut(page: Page, url: string, id: string, kind: "panel" | "job" | "drill" = "panel"): Promise<string> {
  await page.goto(`${url}#/share/${kind}/${encodeURIComponent(id)}`);
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

/** The record of a job at a panel, as another phone would hand it over. */
export function jobAt(panel: string): string {
  return JSON.stringify({
    format: "halfsplit-job",
    version: 1,
    title: "P1 dead",
    complaint: "The lamp stays dark.",
    started: "2026-03-04T07:30:00Z",
    ended: "2026-03-04T08:05:00Z",
    minutes: 35,
    panel: JSON.parse(panel) as object,
    steps: [{ when: "2026-03-04T07:40:00Z", kind: "reading", mode: "vdc", red: "X1:2/out", black: "X2:1", shown: "0.0 V" }],
    cause: { faults: ["X1:2=fuse-blown"], text: "The fuse of X1:2 was blown." },
    repair: "Fuse replaced.",
    temporary: [{ what: "jumper", where: "X1:3 to X1:4", placed: "2026-03-04T07:50:00Z" }],
  });
}
