// A newer page waits for the person's yes, outside a job, and until no other
// tab needs the old one.
import assert from "node:assert/strict";
import { test } from "node:test";
import { eventually } from "./eventually.ts";
import { newProfile } from "./phone.ts";
import { serve } from "./server.ts";

test("an update is offered outside a job, waits for other tabs, and is taken by consent", async () => {
  const server = await serve();
  const profile = await newProfile();
  const { context, page, complaints } = await profile.start();
  try {
    const script = await (await fetch(`${server.url}sw.js`)).text();
    const controller = (): Promise<string> =>
      page.evaluate(async () => {
        const { active } = await navigator.serviceWorker.ready;
        return `${active?.state} ${performance.timeOrigin}`;
      });
    await page.goto(server.url);
    await page.locator("[data-news=offline]").waitFor();

    server.change((path) =>
      path === "/sw.js" ? { status: 200, type: "text/javascript", body: `${script}\n// a newer page\n` } : null,
    );
    await page.reload();
    const offer = page.locator("[data-news=update]");
    await offer.waitFor();

    // In a job nothing is offered.
    await page.getByRole("link", { name: /^Dosing skid/ }).click();
    await page.getByRole("button", { name: "Something is dead" }).click();
    await page.locator(".mark").first().waitFor();
    assert.equal(await offer.count(), 0);
    await page.getByRole("link", { name: "Back" }).click();
    await offer.waitFor();

    // Another tab still needs the old files.
    const other = await context.newPage();
    await other.goto(server.url);
    await other.locator(".card").first().waitFor();
    const before = await controller();
    await offer.getByRole("button").click();
    await page.getByText("Close the other Halfsplit tabs first").waitFor();
    assert.equal(await controller(), before, "it moved although another tab was open");
    await other.close();
    // The browser takes a while to know that the tab is gone.
    const tabs = (): Promise<number> =>
      page.evaluate(async () => ((await navigator.locks.query()).held ?? []).filter(({ name }) => name === "halfsplit-tab").length);
    await eventually(async () => assert.equal(await tabs(), 1));

    await Promise.all([page.waitForEvent("load"), offer.getByRole("button").click()]);
    await page.locator(".strip").first().waitFor();
    assert.equal(await offer.count(), 0);
    await eventually(async () => {
      const waiting = await page.evaluate(async () => (await navigator.serviceWorker.ready).waiting !== null);
      assert.equal(waiting, false, "the newer worker still waits");
    });
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
    await server.stop();
    await profile.remove();
  }
});
