// The screens of what comes in, in turn: a stranger, a copy changed on both sides,
// decided and merged, the record of a job.
import type { Page } from "playwright-core";
import { addPanel } from "./attach.ts";
import { colourWire, handOut, jobAt, takeIn } from "./handing.ts";

export async function tourOfWhatComesIn(page: Page, url: string, seen: (name: string) => Promise<void>): Promise<void> {
  const panel = await addPanel(page, url, "Pump house 1");
  const sent = await handOut(page, url, panel);
  await colourWire(page, url, panel, "W1", "RD");
  const drawn = JSON.parse(sent) as { wires: { no: string; colour?: string }[] };
  for (const wire of drawn.wires) {
    if (wire.no === "W1") wire.colour = "WH";
    if (wire.no === "W4") wire.colour = "GY";
  }
  drawn.wires.push({ ...drawn.wires[2], no: "W90", colour: "VT" });
  await takeIn(page, url, "pump-house.halfsplit.json", JSON.stringify(drawn));
  await page.locator("[data-diff]").first().waitFor();
  await seen("received-changed");
  await page.getByRole("button", { name: "Keep both" }).scrollIntoViewIfNeeded();
  await seen("received-what-to-do");
  await page.getByRole("button", { name: "Merge the two" }).click();
  await page.locator(".side").first().waitFor();
  await seen("received-decide");
  await page.locator(".side").nth(1).click();
  await page.getByRole("button", { name: "Keep the merged drawing" }).waitFor();
  await seen("received-merged");
  await page.getByRole("button", { name: "Keep the merged drawing" }).click();
  await page.locator("[data-done]").waitFor();
  await seen("received-done");
  await page.getByRole("link", { name: "Open the panel" }).click();
  await page.locator(".strip").first().waitFor();
  await takeIn(page, url, "job.json", jobAt(sent));
  await page.getByRole("button", { name: "Keep it with Pump house 1" }).waitFor();
  await page.locator("[data-record]").waitFor();
  await seen("received-job");
  await page.goto(url);
  await page.locator("[data-arrival]").waitFor();
  await seen("panels-waiting");
  await page.locator("[data-arrival]").click();
  await page.getByRole("button", { name: "Keep it with Pump house 1" }).click();
  await page.getByText(/^received /).waitFor();
  await page.locator("[data-record]").waitFor();
  await seen("paper");
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator("[data-paper]").scrollIntoViewIfNeeded();
  await seen("papers");
  await takeIn(page, url, "later.json", jobAt(sent).replace("Fuse replaced.", "Fuse and lamp replaced."));
  await page.locator("[data-before]").waitFor();
  await page.locator("[data-record]").waitFor();
  await seen("received-job-later");
}
