// The ways in from outside the page: dropped, opened with it, shared with it, a
// link. Each ends on what came in, and none of them is heard by a server.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { phoneAlone, type Alone } from "./alone.ts";
import { readMemory } from "./memory.ts";
import { program } from "./server.ts";

let phone: Alone;
let bench: string;
/** Another program of the phone: a page with a form that posts where it is told. */
let other: Server;

before(async () => {
  phone = await phoneAlone();
  bench = await readFile(new URL("../../scenarios/training-bench.json", import.meta.url), "utf8");
  other = createServer((_incoming, outgoing) => {
    outgoing.writeHead(200, { "Content-Type": "text/html" });
    outgoing.end(`<form method="post" enctype="multipart/form-data" action="${phone.url}shared">
      <input type="file" name="file"><input name="text"><button>Share</button></form>`);
  });
  await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
});
after(async () => {
  await new Promise((resolve) => other.close(resolve));
  await phone.end();
});

const named = (name: string): string => bench.replace(/"name": "[^"]*"/, `"name": ${JSON.stringify(name)}`);

async function cameIn(page: Page, name: string): Promise<void> {
  await page.getByRole("heading", { level: 1, name, exact: true }).waitFor();
  await page.locator("[data-received=panel]").waitFor();
  assert.equal((await readMemory(page)).stores["panels"]?.length, 0, "kept before anybody said so");
}

async function home(page: Page): Promise<void> {
  await page.goto(phone.url);
  await page.locator(".card").first().waitFor();
}

/** What a person does who holds a file over the page and lets go. */
function drag(page: Page, name: "dragover" | "dragleave" | "drop", file: string, text: string): Promise<void> {
  return page.evaluate(
    ([event, title, content]) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([content], title, { type: "application/json" }));
      const target = document.querySelector("main") ?? document.body;
      target.dispatchEvent(new DragEvent(event, { dataTransfer, bubbles: true, cancelable: true }));
    },
    [name, file, text] as const,
  );
}

test("a file dropped anywhere is shown; while it is held above, the page says so", async () => {
  const { page } = phone;
  await home(page);
  await drag(page, "dragover", "a.json", named("Dropped"));
  await page.locator("[data-drop]").waitFor();
  await drag(page, "dragleave", "a.json", named("Dropped"));
  await page.locator("[data-drop]").waitFor({ state: "detached" });
  await drag(page, "dragover", "a.json", named("Dropped"));
  await drag(page, "drop", "a.json", named("Dropped"));
  await cameIn(page, "Dropped");
  assert.equal(await page.locator("[data-drop]").count(), 0);
});

test("in the middle of a job it is offered, and the job stays on the screen", async () => {
  const { page } = phone;
  await home(page);
  await page.getByRole("link", { name: /^Training bench/ }).click();
  await page.getByRole("button", { name: "Something is dead" }).click();
  await page.locator(".mark").first().waitFor();
  const job = page.url();
  await drag(page, "drop", "b.json", named("In the middle"));
  await page.locator("[data-waiting]", { hasText: "In the middle has come in." }).waitFor();
  assert.equal(page.url(), job);
  await page.getByRole("button", { name: "Later" }).click();
  await page.locator("[data-waiting]").waitFor({ state: "detached" });
  await home(page);
  await page.locator("[data-arrival]", { hasText: "In the middle" }).click();
  await cameIn(page, "In the middle");
});

test("a file that the phone opens with the page", async () => {
  const page = await phone.context.newPage();
  // As the browser of an installed page has it: W3C Web App Launch Handler. Really installed: installed.test.ts.
  await page.addInitScript((text) => {
    Object.defineProperty(window, "launchQueue", {
      value: {
        setConsumer: (consumer: (launch: object) => void) =>
          consumer({ files: [{ getFile: () => Promise.resolve(new File([text], "c.halfsplit.json")) }] }),
      },
    });
  }, named("Opened with it"));
  await page.goto(phone.url);
  await cameIn(page, "Opened with it");
  await page.close();
  const manifest = JSON.parse(await readFile(new URL("../dist/manifest.webmanifest", import.meta.url), "utf8")) as {
    file_handlers: { action: string; accept: Record<string, string[]> }[];
    share_target: { action: string; method: string };
  };
  assert.ok(manifest.file_handlers[0]?.accept["application/json"]?.includes(".halfsplit.json"));
  assert.deepEqual([manifest.share_target.action, manifest.share_target.method], ["./shared", "POST"]);
});

/** Posts what another program shares, and says which requests left the browser's page. */
async function share(page: Page, file: { name: string; text: string } | null, text = ""): Promise<void> {
  await phone.context.setOffline(false); // for the other program's page only: the server is gone
  await page.goto(`http://127.0.0.1:${(other.address() as AddressInfo).port}/`);
  if (file) {
    const { name, text: content } = file;
    await page.locator("[type=file]").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(content) });
  }
  await page.locator("[name=text]").fill(text);
  await phone.context.setOffline(true);
  await page.getByRole("button", { name: "Share" }).click();
}

test("what another program shares arrives without a signal, and a reload does not bring it twice", async () => {
  const page = await phone.context.newPage();
  await share(page, { name: "d.json", text: named("Shared") });
  await cameIn(page, "Shared");
  assert.match(page.url(), /#\/received\//);
  const before = (await readMemory(page)).stores["arrivals"]?.length;
  await page.reload();
  await cameIn(page, "Shared");
  assert.equal((await readMemory(page)).stores["arrivals"]?.length, before);
  await page.close();
});

test("nothing shared, and too much shared, are said", async () => {
  const page = await phone.context.newPage();
  await share(page, null);
  await page.getByRole("alert").filter({ hasText: "has not arrived" }).waitFor();
  await share(page, { name: "e.json", text: `{"a": "${"x".repeat(17 << 20)}"}` });
  await page.getByRole("alert").filter({ hasText: "larger than any panel" }).waitFor();
  await page.close();
});

test("a link is opened, also in a page that is open already, and no request carries it", async () => {
  const page = await phone.context.newPage();
  const asked: string[] = [];
  page.on("request", (request) => asked.push(`${request.url()} ${request.postData() ?? ""}`));
  // As the command packs it.
  const scenario = fileURLToPath(new URL("../../scenarios/training-bench.json", import.meta.url));
  const packed = execFileSync(program, ["pack", scenario], { encoding: "utf8" }).trim().replace(/^.*open=/, "");
  assert.ok(packed.length > 500, `a link of ${packed.length} characters`);
  await page.goto(`${phone.url}#/open/open=${packed}`);
  await page.locator("[data-received=panel]").waitFor();
  assert.match(page.url(), /#\/received\//);
  await home(page);
  await page.evaluate((hash) => (location.hash = hash), `#/open/open=${packed}`);
  await page.locator("[data-received=panel]").waitFor();
  // The step back is to where one was, not to the link.
  await page.goBack();
  await page.locator(".card").first().waitFor();
  assert.ok(asked.length > 0);
  for (const one of asked) {
    assert.ok(!one.includes(packed.slice(20, 60)), `a request carries it: ${one.slice(0, 80)}`);
    assert.ok(!one.includes("#"), one.slice(0, 80));
  }
  await page.close();
  assert.deepEqual(phone.complaints, []);
});
