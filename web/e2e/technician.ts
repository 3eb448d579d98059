// A technician in the test: looks at the phone's prompt, holds the probes of
// the command line's meter to a panel with a hidden fault, and enters what it
// shows.
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import type { Page } from "playwright-core";
import { program } from "./server.ts";

const run = promisify(execFile);

interface Hidden {
  panel: string;
  fault: string;
}

/** The meter's display with the probes where the prompt wants them. */
async function readMeter(
  { panel, fault }: Hidden,
  mode: string,
  red: string,
  black: string,
  at: string,
): Promise<string> {
  const args = ["meter", panel, "--fault", fault, "--mode", mode, "--red", red, "--black", black, "--at", at, "--json"];
  const { stdout } = await run(program, args);
  const reading = JSON.parse(stdout) as { value: number | null; overload?: boolean; refused?: string };
  if (reading.refused) throw new Error(`the meter refused ${mode} ${red} ${black}: ${reading.refused}`);
  return reading.value === null ? "OL" : String(reading.value);
}

/** What the prompt on the screen asks for. */
export async function readPrompt(page: Page): Promise<{ mode: string; red: string; black: string; at: string }> {
  const text = async (selector: string): Promise<string> => (await page.locator(selector).innerText()).trim();
  const modes: Record<string, string> = { "V DC": "vdc", "V AC": "vac" };
  const shown = await text(".dial-mode");
  const mode = modes[shown];
  if (!mode) throw new Error(`the prompt asks for the mode ${shown}`);
  return {
    mode,
    red: await text(".lead-red b"),
    black: await text(".lead-black b"),
    at: (await text("[data-at]")).replace(/^Have on: /, ""),
  };
}

/** Answers one prompt with the keypad. */
export async function answer(page: Page, hidden: Hidden): Promise<string> {
  const steps = await taken(page);
  const { mode, red, black, at } = await readPrompt(page);
  const value = await readMeter(hidden, mode, red, black, at);
  await page.getByRole("button", { name: "Another figure" }).click();
  for (const key of value === "OL" ? ["OL, overload"] : keysOf(Number(value))) {
    await page.getByRole("button", { name: key, exact: true }).click();
  }
  await page.getByRole("button", { name: "Enter" }).click();
  await page.locator(`[data-steps='${steps + 1}']`).waitFor();
  return `${mode} ${red} ${black} ${value}`;
}

export async function taken(page: Page): Promise<number> {
  return Number(await page.locator("[data-steps]").getAttribute("data-steps"));
}

function keysOf(value: number): string[] {
  const digits = [...Math.abs(value).toFixed(3)].map((c) => (c === "." ? "Decimal point" : c));
  return value < 0 ? ["Plus or minus", ...digits] : digits;
}
