// The screens of what comes in, in turn: new, changed on both sides, decided, a job.
import { readFile } from "node:fs/promises";
import type { Page } from "playwright-core";
import { addPanel } from "./attach.ts";
import { colourWire, handOut, takeIn } from "./handing.ts";

const job = await readFile(new URL("../../testdata/vectors/receive/job.json", import.meta.url), "utf8").catch(() => "");

export async function tourOfWhatComesIn(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  const panel = await addPanel(page, url, "Pump house 1");
  const sent = await handOut(page, url, panel);
  await colourWire(page, url, panel, "W1", "RD");
  const drawn = JSON.parse(sent) as { name: string; wires: { no: string; colour?: string; label?: string }[] };
  for (const wire of drawn.wires) {
    if (wire.no === "W1") wire.colour = "WH";
    if (wire.no === "W4") wire.colour = "GY";
  }
  drawn.wires.push({ ...drawn.wires[2], no: "W90", colour: "VT" } as (typeof drawn.wires)[0]);
  void job;
  await takeIn(page, url, "pump-house.halfsplit.json", JSON.stringify(drawn));
  await page.locator("[data-diff]").first().waitFor();
  await seen("received-changed");
  await page.getByRole("button", { name: "Merge the two" }).scrollIntoViewIfNeeded();
  await seen("received-what-to-do");
  await page.getByRole("button", { name: "It is a copy of another panel here" }).waitFor({ state: "detached" }).catch(() => {});
  await page.getByRole("button", { name: "Merge the two" }).click();
  await page.locator(".side").first().waitFor();
  await seen("received-decide");
  await page.locator(".side").nth(1).click();
  await page.getByRole("button", { name: "Keep the merged drawing" }).waitFor();
  await seen("received-merged");
  await page.getByRole("button", { name: "Keep the merged drawing" }).click();
  await page.locator("[data-done]").waitFor();
  await seen("received-done");
}
