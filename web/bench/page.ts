// What a person waits for on the page itself.
import type { Page } from "playwright-core";
import { newProfile } from "../e2e/phone.ts";

/** From a tap on an outcome to the next prompt on the screen, for one search on the skid. */
export async function entries(page: Page, url: string): Promise<{ ms: number[] }> {
  await page.goto(url);
  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  await page.getByRole("button", { name: "Something is dead" }).click();
  const press = (device: string, sight: string): Promise<void> =>
    page.getByRole("group", { name: device }).getByRole("button", { name: sight }).click();
  await press("PT-102 B2", "Dead");
  await press("LT-101 B1", "Works");
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator("[data-steps='3'] .prompt").waitFor({ timeout: 180_000 });
  const ms: number[] = [];
  while ((await page.locator(".prompt").count()) > 0 && ms.length < 20) {
    ms.push(
      await page.evaluate(
        () =>
          new Promise<number>((resolve, reject) => {
            const steps = Number(document.querySelector<HTMLElement>("[data-steps]")?.dataset["steps"]);
            // The panel is sound but for one thing: mostly what is expected is seen.
            const tap =
              document.querySelector<HTMLElement>(".outcome[data-healthy='true']") ??
              document.querySelector<HTMLElement>(".outcome");
            if (!tap) return reject(new Error("there is no outcome to tap"));
            const began = performance.now();
            const look = new MutationObserver(() => {
              if (!document.querySelector(`[data-steps='${steps + 1}']`)) return;
              look.disconnect();
              requestAnimationFrame(() => resolve(performance.now() - began));
            });
            look.observe(document.body, { childList: true, subtree: true, attributes: true });
            tap.click();
          }),
      ),
    );
  }
  return { ms };
}

/**
 * From the opening of an address to the answer of a what-if on the skid: on
 * phones that have never seen the page, and on one that has it, each time in a
 * browser that has just been started.
 */
export async function coldStarts(url: string, times: number): Promise<{ first: number[]; again: number[] }> {
  const told: { first: number[]; again: number[] } = { first: [], again: [] };
  for (let i = 0; i < times; i++) {
    const profile = await newProfile();
    try {
      for (const list of [told.first, told.again]) {
        const { context, page } = await profile.start();
        await page.addInitScript(() => {
          const look = new MutationObserver(() => {
            if (!document.querySelector(".one")) return;
            look.disconnect();
            (window as unknown as { answered: number }).answered = performance.now();
          });
          look.observe(document, { childList: true, subtree: true });
        });
        await page.goto(`${url}#/whatif/${encodeURIComponent("demo:dosing-skid")}/${encodeURIComponent("X3:2.2=fuse-blown")}/list`);
        await page.locator(".one").first().waitFor();
        list.push(await page.evaluate(() => (window as unknown as { answered: number }).answered));
        const served = await page.evaluate(() => navigator.serviceWorker.controller !== null);
        if (list === told.again && !served) throw new Error("the service worker did not serve the page");
        // Until everything is kept for the next start.
        await page.evaluate(() => navigator.serviceWorker.ready);
        await context.close();
      }
    } finally {
      await profile.remove();
    }
  }
  return told;
}
