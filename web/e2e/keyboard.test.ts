// Everything with a keyboard alone: a fault is found from the list of panels to the
// noted repair, and a panel is begun, without a pointer ever touching the page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { readMemory } from "./memory.ts";
import { phoneServed, type Alone } from "./alone.ts";

/** More than these and the order of the page is no order. */
const MOST_TABS = 60;
const MOST_STEPS = 25;

let phone: Alone;

before(async () => {
  phone = await phoneServed();
});
after(() => phone.end());

/** What has the focus: its name as a screen reader has it, and how it is marked. */
interface Focused {
  tag: string;
  name: string;
  /** Its place in the page, to see whether the focus goes on. */
  top: number;
  outline: number;
  /** Contrast of the outline with what is behind it. */
  contrast: number;
  inDialog: boolean;
  marker: string;
}

function focused(page: Page): Promise<Focused> {
  return page.evaluate(() => {
    const element = document.activeElement instanceof HTMLElement ? document.activeElement : document.body;
    // A field drawn unseen and a search field are marked by the frame around them.
    const framed = element.closest<HTMLElement>(".unit, .find, .check") ?? element;
    const style = getComputedStyle(framed);
    const numbers = (colour: string): number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const luminance = (colour: number[]): number => {
      const [r = 0, g = 0, b = 0] = colour.map((of) => {
        const part = of / 255;
        return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    // Outside of the element lies its parent, inside of it itself.
    let behind: Element | null = Number.parseFloat(style.outlineOffset) < 0 ? framed : framed.parentElement;
    while (behind && (numbers(getComputedStyle(behind).backgroundColor)[3] ?? 1) < 1) behind = behind.parentElement;
    const labelled = element instanceof HTMLInputElement ? (element.labels?.[0]?.textContent ?? "") : "";
    const one = luminance(numbers(style.outlineColor));
    const other = luminance(numbers(behind ? getComputedStyle(behind).backgroundColor : "rgb(255, 255, 255)"));
    return {
      tag: element.localName,
      name: element.getAttribute("aria-label") ?? (labelled || element.textContent?.trim() || ""),
      top: element.getBoundingClientRect().top + scrollY,
      outline: style.outlineStyle === "none" ? 0 : Number.parseFloat(style.outlineWidth),
      contrast: (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05),
      inDialog: element.closest("dialog[open]") !== null,
      marker: element.className,
    };
  });
}

/** Goes on with Tab to what is named, and sees at each stop that the focus can be seen. */
async function tabTo(page: Page, name: RegExp, key: "Tab" | "Shift+Tab" = "Tab"): Promise<Focused> {
  const passed: string[] = [];
  for (let tabs = 0; tabs < MOST_TABS; tabs++) {
    await page.keyboard.press(key);
    const at = await focused(page);
    passed.push(at.name);
    if (at.tag === "body") continue;
    // WCAG 2.4.11 and 2.4.13: 2 px and 3:1.
    assert.ok(at.outline >= 2, `the focus on ${at.tag} "${at.name}" is ${at.outline} px wide`);
    assert.ok(at.contrast >= 3, `the focus on "${at.name}" has a contrast of ${at.contrast.toFixed(1)}`);
    if (name.test(at.name)) return at;
  }
  throw new Error(`${name} is not reached with ${key}: ${passed.join(" | ")}`);
}

async function press(page: Page, name: RegExp): Promise<void> {
  await tabTo(page, name);
  await page.keyboard.press("Enter");
}

/** Waits until a heading has the focus, and says which. */
async function heard(page: Page, wanted: RegExp): Promise<string> {
  await page.waitForFunction(
    (source) => {
      const at = document.activeElement;
      const name = at?.getAttribute("aria-label") ?? at?.textContent ?? "";
      return /^h[12]$/.test(at?.localName ?? "") && new RegExp(source).test(name);
    },
    wanted.source,
  );
  return (await focused(page)).name;
}

test("from the panels to the noted repair", async () => {
  const { page, complaints } = phone;
  await page.goto(phone.url);
  await page.locator(".card", { hasText: "Dosing skid" }).waitFor();
  await page.locator("[data-news=offline]").waitFor();
  await press(page, /^Close$/);
  await page.locator("[data-news=offline]").waitFor({ state: "detached" });
  // The first stop of the screen is the way past the plate.
  await page.keyboard.press("Tab");
  assert.equal((await focused(page)).name, "Skip to the content");
  await page.keyboard.press("Enter");
  assert.equal((await focused(page)).tag, "main");
  await press(page, /^Dosing skid/);
  await heard(page, /^Dosing skid/);
  // Past the strips to what the thumb does.
  await tabTo(page, /^Skip to what comes next$/, "Shift+Tab");
  await page.keyboard.press("Enter");
  await press(page, /^Something is dead$/);
  await heard(page, /^What is dead\?$/);
  await tabTo(page, /^Find a device$/);
  await page.keyboard.type("PT-102");
  // The input it is wired to comes first, then the instrument.
  await page.locator(".mark:nth-child(2):last-child", { hasText: "PT-102 B2" }).waitFor();
  await tabTo(page, /^Dead$/);
  await press(page, /^Dead$/);
  await page.locator(".toggle-dead[aria-pressed=true]").waitFor();
  await press(page, /^What to measure/);

  let typed = false;
  for (let steps = 2; ; steps++) {
    assert.ok(steps < MOST_STEPS, "the search does not end");
    await page.locator(`[data-steps='${steps}']`).waitFor();
    if ((await page.locator(".outcome-page").count()) > 0) break;
    const prompt = await heard(page, /^(Look at|V DC, red on|V AC, red on|Ohms, red on)/);
    const near = page.locator(".outcome", { hasText: "X3:2" });
    const wanted = prompt.startsWith("Look at")
      ? page.locator(".outcome-look[data-healthy='false']")
      : (await near.count()) > 0
        ? near
        : page.locator(".outcome");
    const shown = await wanted.first().locator("b").innerText();
    if (typed || prompt.startsWith("Look at")) {
      await press(page, new RegExp(`^${shown.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}`));
      continue;
    }
    // The same figure by the digits of a keyboard.
    typed = true;
    const opener = await tabTo(page, /^Another figure/);
    await page.keyboard.press("Enter");
    await page.locator("dialog[open] .keypad:focus").waitFor();
    await trapped(page);
    await page.keyboard.press("Escape");
    await page.locator("dialog[open]").waitFor({ state: "detached" });
    await page.locator(".outcome-other:focus").waitFor(); // given back
    assert.equal((await focused(page)).name, opener.name);
    await page.keyboard.press("Enter");
    await page.locator("dialog[open] .keypad:focus").waitFor();
    await page.keyboard.type(shown.replace(/[^\d.−-]/g, "").replace("−", "-"));
    await page.keyboard.press("Enter");
  }
  assert.ok(typed, "no figure was typed");
  const culprit = await page.locator(".culprit .marker").first().innerText();
  assert.equal(await heard(page, /^Found: /), `Found: ${culprit}.`);
  await press(page, /^Repaired: note it/);
  await page.locator("[data-repaired]:focus").waitFor();
  const { steps = [] } = (await readMemory(page)).stores;
  assert.equal((steps.at(-1)?.["step"] as { kind: string }).kind, "repaired");
  assert.deepEqual(complaints, []);
});

/** However often Tab is pressed, the focus stays in the sheet (or with the browser's own bar). */
async function trapped(page: Page): Promise<void> {
  const names = new Set<string>();
  for (let tabs = 0; tabs < 25; tabs++) {
    await page.keyboard.press("Tab");
    const at = await focused(page);
    assert.ok(at.inDialog || at.tag === "body", `the focus is on "${at.name}", behind the sheet`);
    names.add(at.name);
  }
  assert.ok(names.size > 12, [...names].join(" | "));
}

test("a panel is begun and gets a strip of 24", async () => {
  const { page } = phone;
  await page.goto(phone.url);
  await page.reload();
  await page.locator(".card").first().waitFor();
  await press(page, /^Skip to what comes next/);
  await press(page, /^New panel/);
  await page.locator("dialog[open] input:focus").waitFor();
  await page.keyboard.type("Pump house 4");
  await page.keyboard.press("Enter");
  await heard(page, /^Pump house 4/);
  await press(page, /^Strip$/);
  await page.locator("dialog[open]").waitFor();
  for (let at = await focused(page); at.tag !== "input"; at = await focused(page)) await page.keyboard.press("Tab");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("24");
  await page.keyboard.press("Enter");
  await page.locator("#block-X1\\:24").waitFor();
  assert.equal(await page.locator(".rail > li").count(), 24);
  await page.locator(".bar-button:first-child:focus").waitFor(); // given back
});

test("the meter reads, a target is isolated, a panel is handed over", async () => {
  const { page, complaints } = phone;
  await page.goto(phone.url);
  await page.locator(".card", { hasText: "Training bench" }).waitFor();
  await press(page, /^Training bench/);
  await heard(page, /^Training bench/);
  await tabTo(page, /^Skip to what comes next$/);
  await page.keyboard.press("Enter");
  await press(page, /^Meter$/);
  await heard(page, /^Meter/);
  await press(page, /^X1:2\/out$/);
  await press(page, /^X2:1$/);
  await page.locator(".face-display[data-busy=false] .face-figure", { hasText: /\d V$/ }).waitFor();
  await tabTo(page, /^Mode/, "Shift+Tab");
  await page.keyboard.press("Enter");
  await page.locator("dialog[open]").waitFor();
  await press(page, /^Ω/);
  await page.locator(".face-said").waitFor(); // refused, with the reason
  await tabTo(page, /^Back$/, "Shift+Tab");
  await page.keyboard.press("Enter");
  await heard(page, /^Training bench/);

  await tabTo(page, /^Skip to what comes next$/, "Shift+Tab");
  await page.keyboard.press("Enter");
  await press(page, /^Isolate$/);
  await heard(page, /^Isolate$/);
  await tabTo(page, /^Tag, terminal or wire/);
  await page.keyboard.type("P1");
  await page.locator(".choices .choice", { hasText: "P1" }).first().waitFor();
  await press(page, /^P1/);
  await page.locator(".chosen", { hasText: "P1" }).waitFor();
  await press(page, /^What must be opened$/);
  await page.locator(".check input").first().waitFor();
  await tabTo(page, /^Open X1:2|^X1:2/i);
  await page.keyboard.press("Space");
  await page.locator(".check-done").first().waitFor();

  await page.goto(`${phone.url}#/panel/${encodeURIComponent("demo:training-bench")}/records`);
  await press(page, /^Hand this panel over$/);
  await page.locator("[data-code='1'] canvas").waitFor();
  const coming = page.waitForEvent("download");
  await press(page, /^Save as file$/);
  assert.match((await coming).suggestedFilename(), /^Training bench/);
  assert.deepEqual(complaints, []);
});
