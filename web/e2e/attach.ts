// What a technician does to keep something: adds a panel, a note, a photo.
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";

const bench = await readFile(new URL("../../scenarios/training-bench.json", import.meta.url), "utf8");

const named = (name: string): string => bench.replace(/"name": "[^"]*"/, `"name": ${JSON.stringify(name)}`);

const file = (name: string, text: string): { name: string; mimeType: string; buffer: Buffer } => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});

/** Adds a panel from a file and says under which id it is kept. */
export async function addPanel(page: Page, url: string, name: string): Promise<string> {
  await page.goto(url);
  await page.locator(".card").first().waitFor();
  await page.getByLabel("Add a panel from a file").setInputFiles(file("panel.json", named(name)));
  await page.getByRole("button", { name: "Keep it on this phone" }).click();
  await page.locator(".strip").first().waitFor();
  return decodeURIComponent(/#\/panel\/([^/]+)/.exec(page.url())?.[1] ?? "");
}

/** Ends on the records of this panel, and not on those of one that was open before. */
export async function openRecords(page: Page, url: string, panel: string): Promise<void> {
  const id = encodeURIComponent(panel);
  await page.goto(`${url}#/panel/${id}/records`);
  await page.locator(`main a[href="#/share/panel/${id}"]`).waitFor();
  await page.getByRole("heading", { name: "Photos and notes" }).waitFor();
}

/** On the records of a panel: shows a newer drawing of it beside the one that is here. */
export async function offerDrawing(page: Page, name: string): Promise<void> {
  await page.getByLabel("A newer drawing from a file").setInputFiles(file("newer.json", named(name)));
  await page.locator("[data-diff]").first().waitFor();
}

/** On the records of a panel: gives it a newer drawing, and ends there again. */
export async function newerDrawing(page: Page, name: string): Promise<void> {
  await offerDrawing(page, name);
  await page.getByRole("button", { name: "Take theirs over" }).click();
  await page.locator("[data-done]").waitFor();
  await page.getByRole("link", { name: "Open the panel" }).click();
  await page.getByRole("link", { name: "Records" }).click();
  await page.getByRole("heading", { name: "Photos and notes" }).waitFor();
}

/** Where photos and notes are shown. */
export async function writeNote(page: Page, text: string): Promise<void> {
  await page.getByRole("button", { name: "Note", exact: true }).click();
  await page.getByRole("textbox", { name: "Note" }).fill(text);
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.locator(".note-text", { hasText: text.split("\n")[0] ?? "" }).first().waitFor();
}

/** Where photos and notes are shown; ends on the photo's own screen. */
export async function takePhoto(page: Page, jpeg: Buffer): Promise<void> {
  await page.locator("input[capture]").setInputFiles({ name: "photo.jpg", mimeType: "image/jpeg", buffer: jpeg });
  await page.locator(".picture > img").waitFor();
}

export async function removePhoto(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Remove this photo" }).click();
  await page.getByText(/^Removed/).waitFor();
}

export async function restore(page: Page, url: string, path: string): Promise<string> {
  await page.goto("about:blank"); // so that no outcome of before is there
  await page.goto(`${url}#/kept`);
  await page.getByLabel("Restore from a backup").setInputFiles(path);
  const outcome = page.locator("[data-restored], .box-warn[role=alert]");
  await outcome.first().waitFor();
  return outcome.first().innerText();
}
