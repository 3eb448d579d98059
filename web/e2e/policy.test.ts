// The policy under which the page runs: its own files, no script within the page.
// That the page gets along with it is asked on every screen in access.test.ts.
import assert from "node:assert/strict";
import { test } from "node:test";
import { newProfile } from "./phone.ts";
import { serve } from "./server.ts";

for (const bare of [false, true]) {
  test(`a script that got into the page does not run ${bare ? "where the host sets no header" : "as served"}`, async () => {
    const server = await serve({ bare });
    const profile = await newProfile();
    const { context, page, complaints } = await profile.start();
    try {
      const answer = await page.goto(server.url);
      const header = (await answer?.headerValue("content-security-policy")) ?? "";
      assert.equal(header === "", bare);
      assert.doesNotMatch(header, /unsafe-inline|'unsafe-eval'/);
      // The page works: the core has been compiled and has answered.
      await page.getByRole("link", { name: /^Dosing skid/ }).click();
      await page.locator(".strip .volts:not(:empty)").first().waitFor();
      assert.deepEqual(complaints, []);
      const { ran, directives } = await page.evaluate(async () => {
        const window_ = window as unknown as { ran: string[] };
        window_.ran = [];
        // A header and the page's own say the same twice.
        const directives = new Set<string>();
        const both = new Promise<void>((resolve) =>
          document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => {
            if (directives.add(effectiveDirective).size === 2) resolve();
          }),
        );
        const script = document.createElement("script");
        script.textContent = "window.ran.push('script')";
        document.head.append(script);
        const button = document.createElement("button");
        button.setAttribute("onclick", "window.ran.push('handler')");
        document.body.append(button);
        button.click();
        await both;
        return { ran: window_.ran, directives: [...directives] };
      });
      assert.deepEqual(ran, []);
      assert.deepEqual(directives.sort(), ["script-src-attr", "script-src-elem"]);
    } finally {
      await context.close();
      await server.stop();
      await profile.remove();
    }
  });
}
