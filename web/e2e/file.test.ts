// A panel from a file: a bad one is refused with place and remedy and harms
// nothing, a good one is kept until it is taken off.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;
let bench: string;

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  bench = await readFile(new URL("../../scenarios/training-bench.json", import.meta.url), "utf8");
  await phone.page.goto(server.url);
  await phone.page.locator(".card").first().waitFor();
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

async function add(name: string, text: string): Promise<void> {
  await phone.page
    .getByLabel("Add a panel from a file")
    .setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
}

const bad: { what: string; text: () => string; want: RegExp }[] = [
  { what: "an empty file", text: () => "", want: /nothing to read/ },
  { what: "no JSON at all", text: () => "PK\u0003\u0004 not a panel", want: /neither a document/ },
  { what: "a document cut in the middle", text: () => bench.slice(0, 400), want: /line \d+, column \d+/ },
  // Far deeper than a worker's stack: the core must see it coming.
  { what: "a million brackets", text: () => '{"a":'.repeat(1e6), want: /nested deeper/ },
  { what: "a document of another kind", text: () => '{"format": "recipe", "version": 1}', want: /halfsplit-panel/ },
  {
    what: "a wire to a terminal that is not there",
    text: () => bench.replace(/"to": "K1:A1"/, '"to": "K1:A7"'),
    want: /line \d+, column \d+.*A7/,
  },
];

for (const { what, text, want } of bad) {
  test(`${what} is refused, and the page goes on`, async () => {
    const { page } = phone;
    const written = text();
    assert.notEqual(written, bench, "the file is not bad at all");
    await add("bad.json", written);
    const alert = page.getByRole("alert");
    await alert.waitFor();
    assert.match(await alert.innerText(), want);
    assert.equal(await page.locator(".card-row").count(), 0, "it was kept");
    await page.goto(server.url);
    await page.reload();
    await page.locator(".card").first().waitFor();
    assert.equal(await page.getByRole("alert").count(), 0);
  });
}

test("a good panel is kept over a reload, and goes when it is taken off", async () => {
  const { page } = phone;
  await add("ours.json", bench.replace(/"name": "[^"]*"/, '"name": "Our bench"'));
  await page.getByRole("button", { name: "Keep it on this phone" }).click();
  await page.locator(".strip .volts:not(:empty)").first().waitFor();
  await page.goto(server.url);
  await page.locator(".card-row").waitFor();
  await page.reload();
  await page.getByRole("link", { name: "Our bench" }).click();
  await page.locator(".strip").first().waitFor();
  await page.getByRole("link", { name: "Back" }).click();
  // Nobody is asked, and one tap takes it back.
  await page.getByRole("button", { name: "Remove Our bench" }).click();
  await page.locator(".card-row").waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".card-row").waitFor();
  await page.getByRole("button", { name: "Remove Our bench" }).click();
  await page.locator(".card-row").waitFor({ state: "detached" });
  await page.reload();
  await page.getByRole("link", { name: /^Training bench/ }).waitFor();
  assert.equal(await page.locator(".card-row").count(), 0);
  assert.deepEqual(phone.complaints, []);
});
