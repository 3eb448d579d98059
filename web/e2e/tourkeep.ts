// The screens of what is kept, in turn: records, photos, backup, what was removed.
import type { Page } from "playwright-core";
import { addPanel, newerDrawing, openRecords, removePhoto, takePhoto, writeNote } from "./attach.ts";
import { photoWithPlace } from "./exif.ts";

export async function tourOfWhatIsKept(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  const panel = await addPanel(page, url, "Pump house 2");
  await openRecords(page, url, panel);
  await newerDrawing(page, "Pump house 2, rewired");
  await page.locator("[data-version='2']").waitFor();
  await page.getByRole("button", { name: "Note", exact: true }).click();
  await page.getByRole("textbox", { name: "Note" }).fill("Spare fuses are in the door.");
  await seen("note-writing");
  await page.getByRole("button", { name: "Not now" }).click();
  await writeNote(page, "Spare fuses are in the door. The left hinge is worn: lift the door while closing.");
  await takePhoto(page, await photoWithPlace(page, 1200, 1600));
  await page.getByRole("button", { name: "Mark a terminal" }).click();
  await page.locator(".pin-new").waitFor();
  await seen("photo-placing");
  await page.getByRole("button", { name: "Which terminal?" }).click();
  await page.getByRole("searchbox").fill("X1");
  await page.locator(".sheet .choice").first().waitFor();
  await seen("photo-which");
  await page.locator(".sheet .choice").first().click();
  await page.locator(".pin-row").waitFor();
  await seen("photo");
  await openRecords(page, url, panel);
  await page.locator(".previews img").waitFor();
  await seen("records");
  await page.goto(url);
  await page.locator(".keeping").getByRole("button", { name: "Back up" }).waitFor();
  await page.locator(".card").nth(2).waitFor();
  await seen("panels-own");
  await page.getByRole("button", { name: /^Remove Pump house 2/ }).first().click();
  await page.getByText(/^Removed/).waitFor();
  await seen("panels-removed");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".card-row").first().waitFor();
  await openRecords(page, url, panel);
  await page.locator(".previews a").click();
  await page.locator(".picture > img").waitFor();
  await removePhoto(page);
  await page.goto(`${url}#/kept`);
  await page.locator("[data-keeping]").waitFor();
  await seen("kept");
  await page.goto(`${url}#/deleted`);
  await page.locator("[data-away]").first().waitFor();
  await seen("deleted");
  await page.getByRole("button", { name: "Delete for good" }).first().click();
  await page.locator(".sheet").waitFor();
  await seen("deleted-sure");
  await page.locator(".sheet").getByRole("button", { name: "Close" }).click();
  await withoutRoom(page, async () => {
    await page.goto(`${url}#/panel/${encodeURIComponent(panel)}/strips`);
    await page.getByRole("button", { name: "Something is dead" }).click();
    await page.getByRole("alert").filter({ hasText: "No room is left" }).waitFor();
    await seen("full");
    await page.getByRole("link", { name: "Make room" }).click();
    await page.locator("[data-away]").first().waitFor();
    await seen("full-deleted");
  });
}

/** As on a phone whose memory is used up; the real thing is in room.test.ts. */
async function withoutRoom(page: Page, act: () => Promise<void>): Promise<void> {
  await page.evaluate(() => {
    const { add } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.add = () => {
      throw new DOMException("no room", "QuotaExceededError");
    };
    StorageManager.prototype.estimate = () => Promise.resolve({ usage: 980e6, quota: 1000e6 });
    Object.assign(window, { makeRoom: () => (IDBObjectStore.prototype.add = add) });
  });
  await act();
  await page.evaluate(() => (window as unknown as { makeRoom: () => void }).makeRoom());
  await page.getByRole("button", { name: "Try again" }).click();
  await page.locator(".mark").first().waitFor();
}
