// What every screen must be, asked of each one while it is on: large enough to
// hit, dark enough to read in the sun, and whole when letters are large.
import type { CDPSession, Page } from "playwright-core";
import { phone } from "./browser.ts";

/** All that is wrong with the screen that is on, a sentence each. */
export async function wrongWith(page: Page, browser: CDPSession): Promise<string[]> {
  const found = [...(await page.evaluate(small)), ...(await page.evaluate(tooNear)), ...(await page.evaluate(faint))];
  found.push(...(await page.evaluate(withoutTheme)));
  // The phone's own setting of 200 % (WCAG 1.4.4): em in media queries is twice as large too.
  await browser.send("Page.setFontSizes", { fontSizes: { standard: 32, fixed: 26 } });
  await page.waitForFunction(() => getComputedStyle(document.documentElement).fontSize === "32px");
  found.push(...(await page.evaluate(cutOff, phone.width)).map((what) => `${what} with large letters`));
  await browser.send("Page.setFontSizes", { fontSizes: { standard: 16, fixed: 13 } });
  await page.waitForFunction(() => getComputedStyle(document.documentElement).fontSize === "16px");
  return found;
}

/**
 * What a thumb must hit is 48 px or more both ways (choice; WCAG 2.5.5 has 44). A
 * field that is only drawn unseen counts by its label, which is what is hit. The page
 * has no links within sentences, which may be smaller.
 */
function small(): string[] {
  const top = document.querySelector("dialog[open]") ?? document;
  const targets = "a[href], button, select, textarea, summary, input:not(.unseen), label.unit, [role=button]";
  return [...top.querySelectorAll<HTMLElement>(targets)]
    .filter((element) => !element.matches(".skip"))
    .map((element) => ({ element, box: element.getBoundingClientRect() }))
    .filter(({ box }) => box.width > 0 && (box.width < 47.5 || box.height < 47.5))
    .map(({ element, box }) => {
      const name = element.className || element.textContent?.slice(0, 20);
      return `${element.tagName} ${name} is ${Math.round(box.width)}x${Math.round(box.height)}`;
    });
}

/** What takes away keeps 8 px from what else may be hit. */
function tooNear(): string[] {
  const top = document.querySelector("dialog[open]") ?? document;
  const takesAway = /^(Remove |Delete for good|Leave it out|There is no |Take the jumper out|Take .* off the list)/;
  const named = (element: Element): string => element.getAttribute("aria-label") ?? element.textContent?.trim() ?? "";
  const boxes = [...top.querySelectorAll<HTMLElement>("a[href], button, select, input:not(.unseen), textarea, summary")]
    // What sticks to the screen lies above what scrolls beneath it.
    .filter((element) => !element.closest(".plate, .skips, .sheet-head, .foot, .over"))
    .map((element) => ({ name: named(element), box: element.getBoundingClientRect() }))
    .filter(({ box }) => box.width > 0);
  return boxes
    .filter(({ name }) => takesAway.test(name))
    .flatMap((away) =>
      boxes
        .filter((other) => other !== away)
        .filter(({ box }) => {
          const across = Math.max(box.left - away.box.right, away.box.left - box.right);
          const along = Math.max(box.top - away.box.bottom, away.box.top - box.bottom);
          return across < 7.5 && along < 7.5;
        })
        .map((other) => `"${away.name}" is less than 8 px from "${other.name.slice(0, 30)}"`),
    );
}

/** Figures and what a prompt says are 7:1 or more (WCAG 1.4.6, contrast as defined there). */
function faint(): string[] {
  const top = document.querySelector("dialog[open]") ?? document;
  const told =
    "h1, .face-figure, .face-refused, .face-probe b, .display, .key:enabled, .dial, .dial-mode, .lead-where b, " +
    ".lead-where small, .outcome > b, .outcome > span, .outcome em, .volts, .volts b, .volts s, .figure, .number, .fuse, " +
    ".wire, .wire > span, .marker, .lead-in, .chance, .probe-mark, .probe, .probe-dot, .check-line, .before-after td, " +
    ".caution-line, .said-wrong, .count > input, .toggle:enabled, .ring-word";
  const parse = (colour: string): number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const luminance = ([r = 0, g = 0, b = 0]: number[]): number => {
    const [red = 0, green = 0, blue = 0] = [r, g, b].map((of) => {
      const part = of / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const ground = (element: Element): number[] => {
    for (let at: Element | null = element; at; at = at.parentElement) {
      const colour = parse(getComputedStyle(at).backgroundColor);
      if ((colour[3] ?? 1) === 1) return colour;
    }
    return [255, 255, 255];
  };
  const found = [...top.querySelectorAll<HTMLElement>(told)]
    .filter((element) => element.checkVisibility() && !element.closest(":disabled") && element.textContent?.trim())
    .map((element) => {
      const [a, b] = [luminance(parse(getComputedStyle(element).color)), luminance(ground(element))];
      return { element, ratio: (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) };
    })
    .filter(({ ratio }) => ratio < 7)
    .map(({ element, ratio }) => `.${element.className} has a contrast of ${ratio.toFixed(1)}`);
  return [...new Set(found)];
}

/** Light and dark are one tap apart, unless a sheet is in front. */
function withoutTheme(): string[] {
  if (document.querySelector("dialog[open]")) return [];
  const box = document.querySelector("[data-theme-switch]")?.getBoundingClientRect();
  const seen = box && box.top >= 0 && box.bottom <= innerHeight && box.left >= 0 && box.right <= innerWidth;
  return seen ? [] : ["light and dark are not one tap apart"];
}

/** Nothing goes off the side, nothing in a button is cut off, and no button lies on another. */
function cutOff(width: number): string[] {
  const root = document.scrollingElement ?? document.documentElement;
  const top = document.querySelector("dialog[open]") ?? document.body;
  const named = (element: Element): string =>
    `${element.tagName} ${element.className} ${element.textContent?.trim().slice(0, 20)}`;
  const found: string[] = [];
  if (root.scrollWidth > width) found.push(`the screen is ${root.scrollWidth} px wide`);
  const all = [...top.querySelectorAll<HTMLElement>("*")].filter(
    (element) => !element.closest(".unseen, .skips, svg") && element.checkVisibility(),
  );
  found.push(
    ...all
      .filter((element) => element.getBoundingClientRect().right > width + 1)
      .map((element) => `${named(element)} goes off the side`),
  );
  const buttons = all.filter((element) => element.matches("button, a[href], select, summary, label.unit"));
  for (const button of buttons) {
    const outside = button.getBoundingClientRect();
    const texts = document.createTreeWalker(button, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const range = document.createRange();
      range.selectNodeContents(texts.currentNode);
      const inside = range.getBoundingClientRect();
      const within = texts.currentNode.parentElement;
      if (inside.width === 0 || !within || within.closest(".unseen, option")) continue;
      // A long caution is whole on its own sheet, one tap away.
      if (within.matches(".caution-line > span")) continue;
      const over = Math.max(outside.left - inside.left, inside.right - outside.right, outside.top - inside.top, inside.bottom - outside.bottom);
      if (over > 2 || getComputedStyle(within).textOverflow === "ellipsis") {
        found.push(`${named(button)} is cut off`);
      }
    }
  }
  const boxes = buttons.map((element) => ({ element, box: element.getBoundingClientRect() }));
  boxes.forEach(({ element, box }, index) => {
    for (const other of boxes.slice(index + 1)) {
      if (element.contains(other.element) || other.element.contains(element)) continue;
      const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
      const along = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
      if (across > 1 && along > 1) found.push(`${named(element)} lies on ${named(other.element)}`);
    }
  });
  return found.slice(0, 6);
}
