// The page installed as a phone installs it, and opened by the system with a file.
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { readMemory } from "./memory.ts";
import { newProfile } from "./phone.ts";
import { serve } from "./server.ts";

/** What of the browser's own protocol is used here and has no types yet. */
interface Installing {
  send(method: "PWA.install", params: { manifestId: string; installUrlOrBundleUrl: string }): Promise<object>;
  send(method: "PWA.launchFilesInApp", params: { manifestId: string; files: string[] }): Promise<object>;
  send(method: "PWA.uninstall", params: { manifestId: string }): Promise<object>;
}

test("a file that the system opens with the installed page comes in, and is kept when a person says so", async () => {
  const server = await serve();
  const profile = await newProfile();
  const folder = await mkdtemp(join(tmpdir(), "halfsplit-installed-"));
  const bench = await readFile(new URL("../../scenarios/training-bench.json", import.meta.url), "utf8");
  const file = join(folder, "bench.halfsplit.json");
  await writeFile(file, bench);
  const { context, page, complaints } = await profile.start({ ownHome: true });
  try {
    await page.goto(server.url);
    await page.locator(".card").first().waitFor();
    const browser = (await context.newCDPSession(page)) as unknown as Installing;
    const manifestId = server.url;
    await browser.send("PWA.install", { manifestId, installUrlOrBundleUrl: server.url });
    const opening = context.waitForEvent("page");
    await browser.send("PWA.launchFilesInApp", { manifestId, files: [file] });
    const opened = await opening;
    await opened.locator("[data-received=panel]").waitFor();
    await opened.getByRole("heading", { level: 1, name: "Training bench" }).waitFor();
    const { panels, arrivals } = (await readMemory(opened)).stores;
    assert.deepEqual([panels, arrivals?.map(({ text }) => text)], [[], [bench]]);
    await browser.send("PWA.uninstall", { manifestId });
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
    await server.stop();
    await profile.remove();
    await rm(folder, { recursive: true, force: true });
  }
});
