// The core in a real browser's worker: what its small stack can take, and a
// long answer that is stopped.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { phoneServed, type Alone } from "./alone.ts";

let phone: Alone;

before(async () => {
  phone = await phoneServed();
});
after(() => phone.end());

/** Puts requests to a fresh worker of a module, one after the other, and gives its answers. */
async function put(requests: string[], module: "core" | "workshop" = "core"): Promise<string[]> {
  const { page } = phone;
  const assets = await readdir(new URL("../dist/assets/", import.meta.url));
  const worker = assets.find((name) => /^worker-.*\.js$/.test(name));
  assert.ok(worker, "no worker was built");
  await page.goto(phone.url);
  return page.evaluate(
    async ([url, asked, name]) => {
      const core = new Worker(url, { type: "module", name });
      const answers: string[] = [];
      // Its first word is that it is ready.
      await new Promise((resolve) => (core.onmessage = resolve));
      for (const request of asked) {
        const { data } = await new Promise<MessageEvent>((resolve) => {
          core.onmessage = resolve;
          core.postMessage({ id: 1, request: new TextEncoder().encode(request) });
        });
        answers.push(data.kind === "answer" ? new TextDecoder().decode(data.response) : `broken: ${data.why}`);
      }
      return answers;
    },
    [`/assets/${worker}`, requests, module] as const,
  );
}

test("a request nested too deep is refused before it is decoded, and the worker lives on", async () => {
  const deep = (n: number): string => `{"op":"open","x":${"[".repeat(n)}${"]".repeat(n)}}`;
  const told = await put([deep(9), deep(10_000), deep(1_000_000), '{"op":"version"}']);
  const parsed = told.map((text) => JSON.parse(text) as { error?: { code: string }; hello?: unknown });
  assert.notEqual(parsed[0]?.error?.code, "too-deep");
  assert.equal(parsed[1]?.error?.code, "too-deep");
  assert.equal(parsed[2]?.error?.code, "too-deep");
  assert.ok(parsed[3]?.hello, told[3]);
});

/** As the golden file has it: of a long answer its length and digest. */
function kept(response: string): string {
  const bytes = Buffer.from(response);
  if (bytes.length <= 8192) return response;
  return `${bytes.length} bytes, sha256 ${createHash("sha256").update(bytes).digest("hex")}`;
}

test("the browser's core answers as the native one does, to the byte", async () => {
  const file = new URL("../../testdata/golden/answers.json", import.meta.url);
  const golden = JSON.parse(await readFile(file, "utf8")) as { request: string; response: string }[];
  assert.ok(golden.length > 20, "no answers to compare");
  const told = (await put(golden.map(({ request }) => request), "workshop")).map(kept);
  golden.forEach(({ request, response }, index) => assert.equal(told[index], response, request));
  // The module of the open panel has the same answers, up to where the workshop's begin.
  const until = golden.findIndex(({ request }) => /"op":"(edit|guess|record|pack|unpack|diff|merge|drill)/.test(request));
  const field = until < 0 ? golden : golden.slice(0, until);
  assert.ok(field.length > 20, "no answers of the open panel to compare");
  const alone = (await put(field.map(({ request }) => request))).map(kept);
  field.forEach(({ request, response }, index) => assert.equal(alone[index], response, request));
});

/** Holds back what the page asks of a search once it shows how far that is, however fast the core is. */
function holdSearch(): void {
  const post = Worker.prototype.postMessage as (message: unknown, transfer?: Transferable[]) => void;
  const held: (() => void)[] = [];
  const shown = (): boolean => document.body.innerText.includes("faults tried");
  let holding = true;
  Object.assign(globalThis, {
    letGo: () => {
      holding = false;
      for (const send of held.splice(0)) send();
    },
  });
  const slowed = function (this: Worker, message: { request: Uint8Array }, transfer: Transferable[] = []): void {
    const finds = new TextDecoder().decode(message.request).includes('"op":"find"');
    const send = (): void => post.call(this, message, transfer);
    if (finds && holding && shown()) held.push(send);
    else send();
  };
  Object.assign(Worker.prototype, { postMessage: slowed });
}

test("a search that is stopped leaves the page at work, and goes on when asked again", async () => {
  const { page } = phone;
  await page.addInitScript(holdSearch);
  await page.goto(phone.url);
  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  await page.getByRole("button", { name: "Something is dead" }).click();
  const press = (device: string, sight: string): Promise<void> =>
    page.getByRole("group", { name: device }).getByRole("button", { name: sight }).click();
  await press("PT-102 B2", "Dead");
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.getByText(/faults tried/).waitFor();
  await page.getByRole("link", { name: "Stop" }).click();
  await page.evaluate(() => (globalThis as unknown as { letGo: () => void }).letGo());
  await press("LT-101 B1", "Works");
  await page.locator(".toggle-works[aria-pressed='true']").waitFor();
  await page.getByRole("link", { name: "What to measure" }).click();
  await page.locator("[data-steps='3'] .prompt").waitFor();
  assert.deepEqual(phone.complaints, []);
});
