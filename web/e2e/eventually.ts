// What an action brings about comes a while after it: on the screen once the page has
// drawn, on disk once it is written. A test waits for that and not for a time.
import { AssertionError } from "node:assert";
import { setTimeout as sleep } from "node:timers/promises";
import type { Page } from "playwright-core";

/** Not a measure of speed: only so that a test that hangs ends. */
const LIMIT = 180_000;
const PAUSE = 50;

/** Asserts again and again until it holds. What was wrong the last time is the failure. */
export async function eventually(holds: () => Promise<void>): Promise<void> {
  for (const begun = Date.now(); ; await sleep(PAUSE)) {
    try {
      return await holds();
    } catch (why) {
      if (!(why instanceof AssertionError) || Date.now() - begun > LIMIT) throw why;
    }
  }
}

/**
 * Until the page has drawn what it has to show and done what it does afterwards: before
 * something is said not to come of it.
 */
export function drawn(page: Page): Promise<void> {
  return page.evaluate(async () => {
    // What follows a frame is done in a task after it, and may ask for another one.
    for (let frame = 0; frame < 2; frame++) {
      await new Promise((next) => requestAnimationFrame(() => setTimeout(next)));
    }
  });
}
