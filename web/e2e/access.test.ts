// Whether everybody can use it: axe on every screen in both themes, and
// Lighthouse on a list, a drawing and a prompt.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { AxeBuilder } from "@axe-core/playwright";
import lighthouse from "lighthouse";
import { phone } from "./browser.ts";
import { newProfile, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";
import { tour } from "./tour.ts";

let server: Served;
let profile: Profile;

before(async () => {
  server = await serve();
  profile = await newProfile();
});
after(async () => {
  await server.stop();
  await profile.remove();
});

for (const dark of [false, true]) {
  test(`axe finds nothing serious, ${dark ? "dark" : "light"}`, async () => {
    const { context, page, complaints } = await profile.start({ dark, bypassCSP: true });
    try {
      let screens = 0;
      const found: string[] = [];
      await tour(page, server.url, async (name) => {
        screens++;
        const { violations } = await new AxeBuilder({ page }).analyze();
        for (const { id, impact, nodes } of violations) {
          if (impact === "serious" || impact === "critical") {
            found.push(`${name}: ${id} at ${nodes.map(({ target }) => target.join(" ")).join(", ")}`);
          }
        }
        found.push(...(await smallTargets(page, name)));
        found.push(...(await cutOffWhenLarge(page, name)));
      });
      assert.deepEqual(found, []);
      assert.ok(screens > 12, `only ${screens} screens were seen`);
      assert.deepEqual(complaints, []);
    } finally {
      await context.close();
    }
  });
}

/** What a thumb must hit is 48 px or more both ways. */
function smallTargets(page: import("playwright-core").Page, name: string): Promise<string[]> {
  return page.evaluate((screen) => {
    const top = document.querySelector("dialog[open]") ?? document;
    return [...top.querySelectorAll<HTMLElement>("a[href], button, select, input:not(.unseen), label.unit")]
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.width < 47.5 || box.height < 47.5))
      .map(({ element, box }) => `${screen}: ${element.className} ${Math.round(box.width)}x${Math.round(box.height)}`);
  }, name);
}

/** With letters of twice the size (WCAG 1.4.4) nothing goes off the side. */
function cutOffWhenLarge(page: import("playwright-core").Page, name: string): Promise<string[]> {
  return page.evaluate(
    ([screen, width]) => {
      const root = document.documentElement;
      root.style.fontSize = "200%";
      const top = document.querySelector("dialog[open]") ?? document.body;
      const cut = [...top.querySelectorAll<HTMLElement>("*")]
        .filter((element) => element.closest(".unseen, svg") === null)
        .filter((element) => element.getBoundingClientRect().right > width + 1)
        .map((element) => `${screen}: ${element.tagName} ${element.className} goes off the side with large letters`);
      root.style.fontSize = "";
      return cut.slice(0, 5);
    },
    [name, phone.width] as const,
  );
}

test("Lighthouse: accessibility and best practices are 100", async () => {
  const port = 9333;
  const { context, page } = await profile.start({ debugPort: port });
  try {
    await page.goto(server.url);
    await page.locator(".card").first().waitFor();
    const jobs = await page.evaluate(
      () =>
        new Promise<string>((resolve, reject) => {
          const open = indexedDB.open("halfsplit");
          open.onerror = () => reject(open.error);
          open.onsuccess = () => {
            const keys = open.result.transaction("jobs").objectStore("jobs").getAllKeys();
            keys.onsuccess = () => resolve(String(keys.result[0]));
          };
        }),
    );
    for (const hash of ["", "#/panel/demo:dosing-skid/strips", `#/job/${jobs}/next`]) {
      const result = await lighthouse(`${server.url}${hash}`, {
        port,
        onlyCategories: ["accessibility", "best-practices"],
        disableStorageReset: true,
        logLevel: "silent",
      });
      for (const [name, { score }] of Object.entries(result?.lhr.categories ?? {})) {
        const audits = Object.values(result?.lhr.audits ?? {});
        const low = audits.filter((audit) => audit.score !== null && audit.score < 1).map(({ id }) => id);
        assert.equal(score, 1, `${hash} ${name}: ${low.join(", ")}`);
      }
      assert.equal(Object.keys(result?.lhr.categories ?? {}).length, 2);
    }
  } finally {
    await context.close();
  }
});
