// What two people do with two phones: one shows codes, one reads them.
import type { Page } from "playwright-core";
import { encodeQR } from "qr";
import { phone } from "./browser.ts";
import { readMemory } from "./memory.ts";

/** Pictures of a phone's screen at each of the codes it shows, stepped by hand. */
export async function picturesOfCodes(page: Page, type: "jpeg" | "png"): Promise<Buffer[]> {
  const count = page.locator(".codes-count");
  await page.locator("[data-code='1'] canvas").waitFor();
  const all = Number(/of (\d+)/.exec(await count.innerText())?.[1]);
  const next = page.getByRole("button", { name: "The next code" });
  await next.click(); // stops the loop, wherever it is
  await page.getByRole("button", { name: "Run" }).waitFor();
  const begun = Number(/\d+/.exec(await count.innerText())?.[0]);
  const pictures: Buffer[] = [];
  for (let i = 0; i < all; i++) {
    const at = (begun - 1 + i) % all;
    await page.locator(`canvas[data-drawn='Code ${at + 1} of ${all}']`).waitFor();
    pictures[at] = await page.screenshot({ type });
    await next.click();
  }
  return pictures;
}

/** How large another code is shown. */
const SIDE = 300;

/** A picture of some other code. */
export async function pictureOfCode(page: Page, text: string, type: "jpeg" | "png"): Promise<Buffer> {
  const other = await page.context().newPage();
  try {
    await other.setViewportSize(phone);
    const svg = encodeQR(text, "svg", { ecc: "medium", border: 4 });
    // In the middle: the browser's false camera sees no more of a tall film.
    await other.setContent(`<meta name="viewport" content="width=device-width"><body style="margin:${(phone.height - SIDE) / 2}px auto;width:${SIDE}px">${svg}</body>`);
    return await other.screenshot({ type });
  } finally {
    await other.close();
  }
}

/** How many frames a second the browser's false camera gives of a film. */
const FRAMES = 30;

/** A film, each picture shown for so many seconds. Source: Motion JPEG is the pictures one after another. */
export const filmOf = (jpegs: readonly Buffer[], seconds: number): Buffer =>
  Buffer.concat(jpegs.flatMap((jpeg) => Array.from({ length: FRAMES * seconds }, () => jpeg)));

export const asFile = (buffer: Buffer, name = "code.png") => ({ name, mimeType: "image/png", buffer });

/** The documents that have come to a phone. */
export async function arrived(page: Page): Promise<string[]> {
  const { stores } = await readMemory(page);
  return (stores["arrivals"] ?? []).map(({ text }) => text as string);
}
