// A technician in the test: looks at the phone's prompt, holds the probes of
// the command line's meter to a panel with a hidden fault, or looks at it, and
// enters what there is.
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import type { Page } from "playwright-core";
import { program } from "./server.ts";

const run = promisify(execFile);

interface Hidden {
  panel: string;
  fault: string;
  /** The state the plant is in. */
  at: string;
}

/** What the prompt on the screen asks for. */
export type Asked =
  | { kind: "reading"; mode: string; red: string; black: string; with: string }
  | { kind: "look"; ref: string; with: string };

const modes: Record<string, string> = { "V DC": "vdc", "V AC": "vac", Ohms: "ohms" };

export async function readPrompt(page: Page): Promise<Asked> {
  const text = async (selector: string): Promise<string> => (await page.locator(selector).innerText()).trim();
  const held = (await page.locator("[data-with]").getAttribute("data-with")) ?? "";
  const shown = await text(".dial-mode");
  if (shown === "Look") return { kind: "look", ref: await text(".lead-where b"), with: held };
  const mode = modes[shown];
  if (!mode) throw new Error(`the prompt asks for the mode ${shown}`);
  return { kind: "reading", mode, red: await text(".lead-red b"), black: await text(".lead-black b"), with: held };
}

/** Does what one prompt asks and enters it: a tap for a look, the keypad for a figure. */
export async function answer(page: Page, hidden: Hidden, taps = { count: 0 }): Promise<string> {
  const steps = await taken(page);
  const asked = await readPrompt(page);
  let done: string;
  if (asked.kind === "look") {
    const state = await look(hidden, asked);
    await page.locator(`.outcome[data-state='${state}']`).click();
    taps.count++;
    done = `look ${asked.ref} ${state}`;
  } else {
    const value = await measure(hidden, asked);
    await page.getByRole("button", { name: "Another figure" }).click();
    for (const key of keysOf(value)) await page.getByRole("button", { name: key, exact: true }).click();
    await page.getByRole("button", { name: "Enter" }).click();
    taps.count += 2 + keysOf(value).length;
    done = `${asked.mode} ${asked.red} ${asked.black} ${value ?? "OL"}`;
  }
  await page.locator(`[data-steps='${steps + 1}']`).waitFor();
  return asked.with ? `${done} @${asked.with}` : done;
}

export async function taken(page: Page): Promise<number> {
  return Number(await page.locator("[data-steps]").getAttribute("data-steps"));
}

/** The meter's display with the probes where the prompt wants them; null is OL. */
async function measure(hidden: Hidden, asked: Asked & { kind: "reading" }): Promise<number | null> {
  const { mode, red, black } = asked;
  const args = ["meter", ...told(hidden, asked.with), "--mode", mode, "--red", red, "--black", black];
  const reading = (await json(args)) as { value: number | null; refused?: string };
  if (reading.refused) throw new Error(`the meter refused ${mode} ${red} ${black}: ${reading.refused}`);
  return reading.value;
}

/** The state a person sees on a device or an indicator. */
async function look(hidden: Hidden, asked: Asked & { kind: "look" }): Promise<string> {
  const { devices, lights } = (await json(["state", ...told(hidden, asked.with)])) as Record<
    "devices" | "lights",
    { ref: string; state: string }[]
  >;
  const seen = [...devices, ...lights].find(({ ref }) => ref === asked.ref);
  if (!seen) throw new Error(`there is no ${asked.ref} to look at`);
  return seen.state;
}

function told({ panel, fault, at }: Hidden, held: string): string[] {
  const condition = held === "" ? at : held === "power-off" ? held : `${at}; ${held}`;
  return [panel, "--fault", fault, "--at", condition, "--json"];
}

/** What the command answers; it is told to do so as JSON. */
export async function json(args: string[]): Promise<unknown> {
  const { stdout } = await run(program, args, { maxBuffer: 1 << 26 });
  return JSON.parse(stdout);
}

function keysOf(value: number | null): string[] {
  if (value === null) return ["OL, overload"];
  const digits = [...Math.abs(value).toFixed(Math.abs(value) < 1000 ? 3 : 0)];
  const keys = digits.map((c) => (c === "." ? "Decimal point" : c));
  return value < 0 ? ["Plus or minus", ...keys] : keys;
}
