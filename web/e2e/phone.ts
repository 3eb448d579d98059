// A phone: a browser process with a profile on disk, which a test can end and
// start again as a person does who pockets the phone overnight.
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type BrowserContext, type Page } from "playwright-core";
import { browserArgs, browserPath, phone } from "./browser.ts";

export interface Phone {
  context: BrowserContext;
  page: Page;
  /** What the browser complained of: exceptions and console errors. */
  complaints: string[];
}

/** SLOW=6 makes a page's own thread six times slower, which shuffles what comes first: how to look for races. */
const SLOW = Number(process.env["SLOW"] ?? 1);

interface Options {
  dark?: boolean;
  debugPort?: number;
  /** For the bench, which puts a worker of its own into the page. */
  bypassCSP?: boolean;
  /** What the browser tells the system of an installed page goes with the profile. */
  ownHome?: boolean;
  /** Further flags of the browser, as for a camera that shows a film. */
  flags?: readonly string[];
}

export interface Profile {
  start(options?: Options): Promise<Phone>;
  /** Ends the browser as an empty battery does: nothing of it gets a last word. */
  crash(phone: Phone): Promise<void>;
  remove(): Promise<void>;
}

export async function newProfile(): Promise<Profile> {
  const folder = await mkdtemp(join(tmpdir(), "halfsplit-phone-"));
  return {
    async start({ dark = false, debugPort, bypassCSP = false, ownHome = false, flags = [] } = {}) {
      const context = await chromium.launchPersistentContext(folder, {
        executablePath: browserPath,
        ...(ownHome && { env: { ...process.env, HOME: folder, XDG_DATA_HOME: join(folder, "share") } }),
        args: [...browserArgs, ...flags, ...(debugPort ? [`--remote-debugging-port=${debugPort}`] : [])],
        viewport: phone,
        deviceScaleFactor: 2,
        hasTouch: true,
        isMobile: true,
        colorScheme: dark ? "dark" : "light",
        locale: "en-GB",
        reducedMotion: "reduce",
        bypassCSP,
      });
      // Not a measure of speed: only so that a test that hangs ends.
      context.setDefaultTimeout(180_000);
      // The tests' compiler names functions with a helper that no page has.
      await context.addInitScript("globalThis.__name ??= (named) => named");
      if (SLOW > 1) {
        context.on("page", (opened) => void slowDown(opened));
        await Promise.all(context.pages().map(slowDown));
      }
      const page = context.pages()[0] ?? (await context.newPage());
      const complaints: string[] = [];
      page.on("pageerror", (error) => complaints.push(String(error)));
      page.on("console", (message) => {
        if (message.type() === "error") complaints.push(message.text());
      });
      return { context, page, complaints };
    },
    async crash({ context }) {
      const closed = new Promise<void>((resolve) => context.on("close", () => resolve()));
      // All its processes at once, as a battery does: what keeps its storage is one of them, and
      // would go on for a moment beside that of the browser that is started next.
      const group = -(await browserOf(folder));
      process.kill(group, "SIGKILL");
      await closed;
      while (alive(group)) await new Promise((again) => setTimeout(again, 10));
    },
    remove: () => rm(folder, { recursive: true, force: true, maxRetries: 5 }),
  };
}

/** A page that is gone again before it is slow needs it no more. */
async function slowDown(page: Page): Promise<void> {
  try {
    const browser = await page.context().newCDPSession(page);
    await browser.send("Emulation.setCPUThrottlingRate", { rate: SLOW });
  } catch (why) {
    if (!page.isClosed()) throw why;
  }
}

/** The browser's first process, told by the profile that only it was started with. */
/** Whether there are processes of a number, or of a group. */
function alive(id: number): boolean {
  try {
    return process.kill(id, 0);
  } catch {
    return false;
  }
}

async function browserOf(folder: string): Promise<number> {
  for (const id of await readdir("/proc")) {
    if (!/^\d+$/.test(id)) continue;
    const words = (await readFile(`/proc/${id}/cmdline`, "utf8").catch(() => "")).split("\0");
    const isFirst = !words.some((word) => word.startsWith("--type="));
    if (isFirst && words.includes(`--user-data-dir=${folder}`)) return Number(id);
  }
  throw new Error(`no browser with the profile ${folder}`);
}
