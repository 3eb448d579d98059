// Whether everybody can use it: axe and what is asked of every screen (screens.ts) in
// both themes, under the policy the page is served with; Lighthouse on a list, a
// drawing and a prompt.
import assert from "node:assert/strict";
import { createServer, type AddressInfo } from "node:net";
import { after, before, describe, test } from "node:test";
import { AxeBuilder } from "@axe-core/playwright";
import lighthouse from "lighthouse";
import { newProfile, type Profile } from "./phone.ts";
import { wrongWith } from "./screens.ts";
import { serve, type Served } from "./server.ts";
import { tour } from "./tour.ts";
import { routeOf, type Route } from "../src/ui/route.ts";

/** Every place an address leads to: the compiler asks for a new one. */
const places: Record<Route["at"], true> = {
  panels: true,
  kept: true,
  deleted: true,
  settings: true,
  photo: true,
  panel: true,
  build: true,
  whatif: true,
  meter: true,
  received: true,
  paper: true,
  drills: true,
  attempts: true,
  short: true,
  author: true,
  drill: true,
  isolate: true,
  share: true,
  scan: true,
  job: true,
  leaving: true,
  record: true,
};

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

// Two phones beside each other: a tour waits as much as it works.
describe("every screen can be used", { concurrency: 2 }, () => {
  for (const dark of [false, true]) {
    test(dark ? "dark" : "light", async () => {
      // A phone of its own: what one tour leaves behind would meet the next as known.
      const fresh = await newProfile();
      const { context, page, complaints } = await fresh.start({ dark });
      try {
        const missed = new Set<string>(Object.keys(places));
        const found: string[] = [];
        const broken: string[] = [];
        await context.exposeBinding("policyBroken", (_, what: string) => void broken.push(what));
        await context.addInitScript(() =>
          document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) =>
            (window as unknown as { policyBroken: (what: string) => void }).policyBroken(`${violatedDirective} ${blockedURI}`),
          ),
        );
        const browser = await context.newCDPSession(page);
        await tour(page, server.url, async (name) => {
          missed.delete(routeOf(new URL(page.url()).hash).at);
          // In the page itself: it has no frames, for which axe would open a tab each time.
          const { violations } = await new AxeBuilder({ page }).setLegacyMode().analyze();
          for (const { id, impact, nodes } of violations) {
            found.push(`${name}: ${id} (${impact}) at ${nodes.map(({ target }) => target.join(" ")).join(", ")}`);
          }
          found.push(...(await wrongWith(page, browser)).map((what) => `${name}: ${what}`));
        });
        assert.deepEqual(found, []);
        assert.deepEqual(broken, []);
        assert.deepEqual([...missed], [], "places that the tour does not come to");
        assert.deepEqual(complaints, []);
      } finally {
        await context.close();
        await fresh.remove();
      }
    });
  }
});

/** One that nobody listens on. */
function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const asking = createServer().listen(0, "127.0.0.1", () => {
      const { port } = asking.address() as AddressInfo;
      asking.close(() => resolve(port));
    });
  });
}

test("Lighthouse: accessibility and best practices are 100", async () => {
  const port = await freePort();
  const { context, page } = await profile.start({ debugPort: port });
  try {
    await page.goto(`${server.url}#/panel/demo:dosing-skid/strips`);
    await page.getByRole("button", { name: "Something is dead" }).click();
    await page.getByRole("group", { name: "PT-102 B2" }).getByRole("button", { name: "Dead" }).click();
    await page.getByRole("link", { name: "What to measure" }).click();
    await page.locator(".prompt").waitFor();
    const prompt = new URL(page.url()).hash;
    for (const hash of ["", "#/panel/demo:dosing-skid/strips", prompt]) {
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
