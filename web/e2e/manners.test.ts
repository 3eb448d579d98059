// How the phone behaves in a hand: its screen stays on while somebody probes, it
// answers with a pulse, and half a reading outlives whatever comes between.
import assert from "node:assert/strict";
import { after, before, beforeEach, test } from "node:test";
import type { Page } from "playwright-core";
import { drawn, eventually } from "./eventually.ts";
import { readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  await phone.context.addInitScript(stubs);
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});
beforeEach(async () => {
  await phone.page.goto(server.url);
  await phone.page.evaluate(() => {
    localStorage.clear();
    sessionStorage.clear();
  });
});

interface Stubbed {
  /** Screen locks that are held. */
  held: number;
  /** How often one was wanted and refused. */
  refused: number;
  pulses: number[][];
  hide: (hidden: boolean) => void;
}

/** A screen lock and a motor that can be asked afterwards; a page that can be hidden. */
function stubs(): void {
  const state = { held: 0, refused: 0, pulses: [] as number[][], hide: (_: boolean) => {} };
  const locks = new Set<() => Promise<void>>();
  Object.assign(globalThis, { stubbed: state });
  Object.defineProperty(navigator, "vibrate", {
    value: (pattern: number[]) => {
      state.pulses.push(pattern);
      return true;
    },
  });
  if (sessionStorage.getItem("no-lock")) {
    // As in a browser that has none.
    delete (Navigator.prototype as { wakeLock?: unknown }).wakeLock;
  } else {
    Object.defineProperty(navigator, "wakeLock", {
      value: {
        request: () => {
          if (sessionStorage.getItem("low-battery")) {
            state.refused++;
            return Promise.reject(new DOMException("", "NotAllowedError"));
          }
          const lock = {
            released: false,
            release: () => {
              if (!lock.released) state.held--;
              lock.released = true;
              return Promise.resolve();
            },
          };
          locks.add(lock.release);
          state.held++;
          return Promise.resolve(lock);
        },
      },
    });
  }
  let visibility: DocumentVisibilityState = "visible";
  Object.defineProperty(document, "visibilityState", { get: () => visibility });
  state.hide = (hidden) => {
    visibility = hidden ? "hidden" : "visible";
    // A hidden page loses its lock (W3C Screen Wake Lock, 7).
    if (hidden) for (const release of locks) void release();
    document.dispatchEvent(new Event("visibilitychange"));
  };
}

const stubbed = (page: Page): Promise<Stubbed> =>
  page.evaluate(() => (globalThis as unknown as { stubbed: Stubbed }).stubbed);

const held = async (page: Page, want: number): Promise<void> => {
  await page.waitForFunction((n) => (globalThis as unknown as { stubbed: Stubbed }).stubbed.held === n, want);
};

/** From the panel to the first prompt that wants a reading. */
async function toTheMeter(page: Page): Promise<void> {
  await page.goto(`${server.url}#/panel/demo%3Adosing-skid/strips`);
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.getByRole("group", { name: "PT-102 B2" }).getByRole("button", { name: "Dead" }).click();
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator(".prompt").waitFor();
  for (let steps = 2; (await page.locator(".outcome-look").count()) > 0; ) {
    await page.locator(".outcome-look[data-healthy='false']").first().click();
    await page.locator(`[data-steps='${++steps}']`).waitFor();
  }
}

test("the screen stays on at a prompt, the meter and a checklist, and nowhere else", async () => {
  const { page } = phone;
  await toTheMeter(page);
  await held(page, 1);
  await page.evaluate(() => (globalThis as unknown as { stubbed: Stubbed }).stubbed.hide(true));
  await held(page, 0);
  await page.evaluate(() => (globalThis as unknown as { stubbed: Stubbed }).stubbed.hide(false));
  await held(page, 1);
  await page.getByRole("link", { name: "On the strip" }).click();
  await page.getByRole("heading", { level: 1, name: "On the strip" }).waitFor();
  await held(page, 1);
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator(".prompt").waitFor();
  await held(page, 1);
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator(".mark").first().waitFor();
  await held(page, 0);
  await page.getByRole("link", { name: "Back" }).click();
  await page.getByRole("link", { name: "Meter" }).click();
  await page.locator(".face").waitFor();
  await held(page, 1);
  await page.getByRole("link", { name: "Back" }).click();
  await page.getByRole("link", { name: "Isolate" }).click();
  await page.getByRole("heading", { level: 1, name: "Isolate" }).waitFor();
  await held(page, 0);
  await page.getByRole("searchbox").fill("M1");
  await page.locator(".choices .choice").first().click();
  await page.getByRole("button", { name: "What must be opened" }).click();
  await page.locator(".check").first().waitFor();
  await held(page, 1);
});

test("one tap switches it off, which is said; so is a phone that cannot", async () => {
  const { page } = phone;
  await page.getByRole("link", { name: /^Screen and vibration Screen stays on while probing: on\. Vibration: on\./ }).click();
  const stay = page.getByRole("switch", { name: /^Screen stays on/ });
  assert.ok(await stay.isChecked());
  await stay.click();
  await page.getByText("Off: the phone darkens as it is set to.").waitFor();
  await toTheMeter(page);
  await page.reload();
  await page.locator(".prompt").waitFor();
  await drawn(page);
  assert.equal((await stubbed(page)).held, 0);

  await page.evaluate(() => localStorage.clear());
  await page.evaluate(() => sessionStorage.setItem("low-battery", "yes"));
  await page.reload();
  await page.locator(".prompt").waitFor();
  await page.waitForFunction(() => (globalThis as unknown as { stubbed: Stubbed }).stubbed.refused > 0);
  await page.evaluate(() => (location.hash = "#/settings"));
  await page.getByText("The phone would not stay on").waitFor();

  await page.evaluate(() => sessionStorage.setItem("no-lock", "yes"));
  await page.reload();
  await page.getByText("This browser cannot keep the screen on.").waitFor();
  assert.ok(await stay.isDisabled());
  await page.evaluate(() => sessionStorage.clear());
  assert.deepEqual(phone.complaints, []);
});

test("one pulse for what is stored, another for the end of a search, none when switched off", async () => {
  const { page } = phone;
  await toTheMeter(page);
  const stored = (await stubbed(page)).pulses;
  // Begun from here: the thing marked dead, and each look.
  const steps = Number(await page.locator("[data-steps]").getAttribute("data-steps"));
  assert.deepEqual(stored, Array.from({ length: steps - 1 }, () => [30]));
  for (let n = steps; (await page.locator(".outcome-page").count()) === 0; ) {
    assert.ok(n < 25, "the search does not end");
    const likely = page.locator(".outcome", { hasText: "X3:2" });
    await ((await likely.count()) > 0 ? likely : page.locator(".outcome")).first().click();
    await page.locator(`[data-steps='${++n}']`).waitFor();
  }
  await eventually(async () => {
    const all = (await stubbed(page)).pulses;
    assert.deepEqual(all.slice(0, -1), Array.from({ length: all.length - 1 }, () => [30]));
    assert.notDeepEqual(all.at(-1), [30], "the end of a search feels like any other step");
    assert.ok((all.at(-1) ?? []).length > 1);
  });

  await page.goto(`${server.url}#/settings`);
  await page.getByRole("switch", { name: /^Vibration/ }).click();
  const before = (await stubbed(page)).pulses.length;
  await page.goBack();
  await page.locator(".outcome-page").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".prompt").waitFor();
  await drawn(page);
  assert.equal((await stubbed(page)).pulses.length, before);
});

test("half a reading outlives a call, a reload and a tab that was thrown away", async () => {
  const { context } = phone;
  let { page } = phone;
  await toTheMeter(page);
  const asked = await page.locator(".leads").innerText();
  await page.getByRole("button", { name: "Another figure" }).click();
  await page.locator(".keypad:focus").waitFor();
  await page.keyboard.type("-13,");
  await page.getByText("mV", { exact: true }).click();
  const still = async (): Promise<void> => {
    await page.locator(".display", { hasText: "−13. mV" }).waitFor();
    assert.equal(await page.locator(".leads").innerText(), asked);
  };
  await still();
  await page.evaluate(() => (globalThis as unknown as { stubbed: Stubbed }).stubbed.hide(true));
  await page.evaluate(() => (globalThis as unknown as { stubbed: Stubbed }).stubbed.hide(false));
  await still();
  await page.reload();
  await still();

  const where = page.url();
  const crashed = page.waitForEvent("crash");
  await page.goto("chrome://crash").catch(() => {});
  await crashed;
  await page.close();
  page = await context.newPage();
  phone = { ...phone, page };
  await page.goto(where);
  await still();

  const steps = Number(await page.locator("[data-steps]").getAttribute("data-steps"));
  await page.locator(".keypad:focus").waitFor();
  await page.keyboard.type("5");
  await page.keyboard.press("Enter");
  await page.locator(`[data-steps='${steps + 1}']`).waitFor();
  await page.locator(".display").waitFor({ state: "detached" });
  const { steps: kept = [] } = (await readMemory(page)).stores;
  const readings = kept.map(({ step }) => (step as { reading?: { value: number } }).reading?.value);
  assert.ok(readings.includes(-0.0135), `entered: ${readings.join(" ")}`);
  // It belonged to that prompt, not to the next.
  await page.reload();
  await page.locator(".prompt, .outcome-page").waitFor();
  await drawn(page);
  assert.equal(await page.locator(".display").count(), 0);
});

/** From now on, what the first figure of the meter shows, frame by frame. */
async function watched(page: Page): Promise<() => Promise<string[]>> {
  await page.evaluate(() => {
    const shown: string[] = [];
    Object.assign(globalThis, { shown });
    const look = (): void => {
      const now = document.querySelector<HTMLInputElement>(".datum input[type=text]")?.value ?? "";
      if (now !== shown.at(-1)) shown.push(now);
      requestAnimationFrame(look);
    };
    look();
  });
  return () => page.evaluate(() => (globalThis as unknown as { shown: string[] }).shown);
}

test("comma and point are one; what may be thousands is refused with the reason", async () => {
  const { page } = phone;
  await toTheMeter(page);
  const enter = async (typed: string, shown: string): Promise<void> => {
    await page.getByRole("button", { name: "Another figure" }).click();
    await page.locator(".keypad:focus").waitFor();
    await page.keyboard.type(typed);
    await page.locator(".display", { hasText: shown }).waitFor();
    assert.ok(await page.getByRole("button", { name: "Enter", exact: true }).isEnabled());
    await page.locator("dialog[open] .sheet-head .square").click();
  };
  await enter("24,1", "24.1 V");
  await enter("24.1", "24.1 V");
  await enter("-24,1", "−24.1 V");
  await page.getByRole("button", { name: "Another figure" }).click();
  await page.locator(".keypad:focus").waitFor();
  await page.keyboard.type("1.234,5");
  await page.getByRole("alert").filter({ hasText: "Only one comma or point" }).waitFor();
  assert.ok(await page.getByRole("button", { name: "Enter", exact: true }).isDisabled());
  await page.locator("dialog[open] .sheet-head .square").click();

  await page.goto(`${server.url}#/meter/demo%3Adosing-skid/vdc`);
  await page.getByRole("button", { name: "My meter" }).click();
  const field = page.locator(".datum input[type=text]").first();
  const was = await field.inputValue();
  await field.fill("10,000");
  await field.press("Enter");
  await page.getByRole("alert").filter({ hasText: "10,000 may be thousands or decimals" }).waitFor();
  assert.equal(await field.inputValue(), "10,000", "what was typed is gone");
  await field.fill("2,5 M");
  const shown = await watched(page);
  await field.press("Enter");
  await page.getByRole("alert").waitFor({ state: "detached" });
  await eventually(async () => assert.equal(await field.inputValue(), "2.5 M"));
  const all = await shown();
  assert.ok(!all.includes(was) && !all.includes("10,000"), `shown in turn: ${all.join(", ")}`);
  await field.fill("");
  await field.press("Enter");
  await eventually(async () => assert.equal(await field.inputValue(), was));
});

test("a thumb that taps twice begins one job", async () => {
  const { page } = phone;
  const jobs = async (): Promise<number> => (await readMemory(page)).stores["jobs"]?.length ?? 0;
  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  const dead = page.getByRole("button", { name: "Something is dead" });
  await dead.waitFor();
  const before = await jobs();
  await dead.evaluate((button: HTMLButtonElement) => {
    button.click();
    button.click();
  });
  await page.waitForURL(/#\/job\//);
  await drawn(page);
  assert.equal(await jobs(), before + 1);
});
