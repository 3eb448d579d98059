// What a stranger sends: it is refused with a reason, or shown as the text it is;
// the page is of use afterwards.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { deflateRawSync } from "node:zlib";
import { jobAt, takeIn } from "./handing.ts";
import { readMemory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

let server: Served;
let profile: Profile;
let phone: Phone;
let bench: string;
const asked: string[] = [];

before(async () => {
  server = await serve();
  profile = await newProfile();
  phone = await profile.start();
  bench = await readFile(new URL("../../scenarios/training-bench.json", import.meta.url), "utf8");
  phone.page.on("dialog", (dialog) => {
    asked.push(`dialog ${dialog.message()}`);
    void dialog.dismiss();
  });
  phone.page.on("request", (request) => asked.push(request.url()));
});
after(async () => {
  await phone.context.close();
  await server.stop();
  await profile.remove();
});

/** The page still opens a panel and computes. */
async function stillOfUse(): Promise<void> {
  const { page } = phone;
  await page.goto(server.url);
  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  await page.locator(".strip .volts:not(:empty)").first().waitFor();
}

const nested = (depth: number): string =>
  `{"format": "halfsplit-panel", "version": 1, "name": "x", "parts": ${"[".repeat(depth)}${"]".repeat(depth)}}`;

const many = (n: number): string =>
  `{"format": "halfsplit-panel", "version": 1, "name": "x", "wires": [${Array(n).fill("{}").join(",")}]}`;

/** As core/share packs it (testdata/schema, Packed), but with lengths of our choice. */
function bomb(said: number, held: number): string {
  const length: number[] = [];
  for (let left = said; ; left = Math.floor(left / 128)) {
    length.push(left >= 128 ? (left % 128) + 128 : left);
    if (left < 128) break;
  }
  const packed = Buffer.concat([Buffer.from([1, ...length, 0, 0, 0, 0]), deflateRawSync(Buffer.alloc(held, " "))]);
  return `open=${packed.toString("base64url")}`;
}

const bad: { what: string; text: () => string | Buffer; want: RegExp }[] = [
  { what: "a document nested a hundred thousand deep", text: () => nested(100_000), want: /nested/ },
  { what: "more wires than a panel may have", text: () => many(200_000), want: /wires/ },
  { what: "a link with garbage", text: () => "open=%%%\u0000not a link", want: /neither a document nor one packed here/ },
  { what: "a link that is no packed form", text: () => "open=AAAAAAAAAAAA", want: /neither a document nor one packed here/ },
  { what: "a few bytes that say they are four gigabytes", text: () => bomb(4 * 2 ** 30, 1), want: /larger than|MiB/ },
  { what: "a hundred megabytes that say they are one", text: () => bomb(1 << 20, 100 << 20), want: /longer than it says/ },
];
for (const { what, text, want } of bad) {
  test(`${what} is refused with a reason`, async () => {
    const { page } = phone;
    await takeIn(page, server.url, "bad.json", text());
    assert.match(await page.getByRole("alert").innerText(), want);
    const { panels, arrivals } = (await readMemory(page)).stores;
    assert.deepEqual([panels, arrivals], [[], []]);
    await stillOfUse();
  });
}

test("a link in the address is refused in a sheet, and goes off the address", async () => {
  const { page } = phone;
  await page.goto(server.url);
  await page.locator(".card").first().waitFor();
  await page.goto(`${server.url}#/open/${bomb(1 << 20, 20 << 20)}`);
  await page.locator("dialog[open] [role=alert]").waitFor();
  assert.match(await page.getByRole("alert").innerText(), /longer than it says/);
  assert.equal(new URL(page.url()).hash, "#/");
  await page.reload();
  await page.locator(".card").first().waitFor();
  assert.equal(await page.getByRole("alert").count(), 0);
});

test("a file of 50 MB is refused before it is read", async () => {
  const { page } = phone;
  await page.goto(server.url);
  await page.locator(".card").first().waitFor();
  const read = await page.evaluate(async () => {
    let bytes = 0;
    for (const how of ["text", "arrayBuffer", "stream"] as const) {
      const { [how]: own } = Blob.prototype;
      Object.assign(Blob.prototype, {
        [how](this: Blob) {
          bytes += this.size;
          return (own as () => unknown).call(this);
        },
      });
    }
    const data = new DataTransfer();
    data.items.add(new File([new Uint8Array(50 << 20)], "large.json"));
    document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    while (!document.querySelector("[role=alert]")) await new Promise((resolve) => setTimeout(resolve, 20));
    return bytes;
  });
  assert.ok(read < 1024, `${read} bytes were read`);
  assert.match(await page.getByRole("alert").innerText(), /16 MB/);
  await stillOfUse();
});

test("a backup is told apart from a panel", async () => {
  await takeIn(phone.page, server.url, "b.json", '{"format": "halfsplit-backup", "version": 1}');
  assert.match(await phone.page.getByRole("alert").innerText(), /is a backup/);
});

test("what is written in names is shown as it is written, and does nothing", async () => {
  const { page } = phone;
  const evil = (n: number): string => `<img src=x${n} onerror=alert(${n})><script>alert(${n})</script>`;
  const panel = JSON.parse(bench) as {
    name: string;
    about: string;
    strips: { label?: string; blocks: { label?: string }[] }[];
    parts: { label?: string }[];
    wires: { colour?: string; label?: string }[];
    found?: object[];
  };
  panel.name = evil(1);
  panel.about = evil(2);
  for (const strip of panel.strips) {
    strip.label = evil(3);
    for (const block of strip.blocks) block.label = evil(4);
  }
  for (const part of panel.parts) part.label = evil(5);
  asked.length = 0;
  await takeIn(page, server.url, `${evil(6)}.json`, JSON.stringify(panel));
  await page.getByRole("heading", { level: 1, name: evil(1) }).waitFor();
  await page.getByText(evil(2)).waitFor();
  await page.getByRole("button", { name: "Keep it on this phone" }).click();
  await page.locator(".strip").first().waitFor();
  // Against itself with other names, so that they stand in differences and decisions.
  panel.name = evil(7);
  for (const part of panel.parts) part.label = evil(8);
  await takeIn(page, server.url, "two.json", JSON.stringify(panel));
  await page.getByRole("button", { name: "It is a copy of another panel here" }).click();
  await page.locator("dialog[open] .choice").first().click();
  await page.locator("[data-diff=changed]", { hasText: evil(8) }).waitFor();
  await page.getByRole("button", { name: "Merge the two" }).click();
  await page.locator(".side", { hasText: "<img" }).first().waitFor();
  assert.equal(await page.locator("img, #app script").count(), 0);
  assert.deepEqual(
    asked.filter((what) => what.startsWith("dialog") || /^\/x\d+$/.test(new URL(what).pathname)),
    [],
  );
  await stillOfUse();
  assert.deepEqual(phone.complaints, []);
});

test("what is written in a record from elsewhere is text on every view of it", async () => {
  const { page } = phone;
  const evil = (n: number): string => `<img src=x${n} onerror=alert(${n})><script>alert(${n})</script>`;
  const sent = JSON.parse(jobAt(bench)) as Record<string, unknown> & { steps: object[]; panel: { name: string } };
  const when = "2026-03-04T07:45:00Z";
  sent["title"] = evil(11);
  sent["complaint"] = evil(12);
  sent["who"] = evil(13);
  sent["repair"] = evil(14);
  sent["cause"] = { faults: [evil(15)], place: evil(16), text: evil(17) };
  sent.steps.push({ when, kind: "work", text: evil(18) }, { when, kind: "look", ref: "P1", shown: evil(19), expected: evil(20), why: evil(21) });
  sent["temporary"] = [{ what: evil(22), where: evil(23), note: evil(24) }];
  sent["checks"] = [{ text: evil(25) }];
  sent["photos"] = [{ name: evil(26), of: "found", about: evil(27) }];
  sent["notes"] = [{ when, text: evil(28) }];
  sent.panel.name = evil(29);
  asked.length = 0;
  const isText = async (view: string, ...shown: number[]): Promise<void> => {
    const said = await page.locator("#app").innerText();
    for (const n of shown) assert.ok(said.includes(evil(n)), `${view}: ${evil(n)} is not shown as it was written`);
    assert.equal(await page.locator("#app :is(img, script, [onerror])").count(), 0, view);
  };
  const onTheSheet = [11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 23, 24, 25, 26, 27, 28, 29];
  await takeIn(page, server.url, `${evil(30)}.json`, JSON.stringify(sent));
  await page.locator("[data-record]").waitFor();
  await isText("received", 30, ...onTheSheet);
  await page.getByRole("button", { name: "Add the panel, and keep the record with it" }).click();
  await page.waitForURL(/#\/paper\//);
  await page.locator("[data-record]").waitFor();
  await isText("record", ...onTheSheet);
  await page.emulateMedia({ media: "print" });
  await isText("print", ...onTheSheet);
  assert.ok((await page.pdf()).length > 0);
  await page.emulateMedia({ media: null });
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator("[data-paper]").waitFor();
  await isText("records", 12, 17, 23);
  assert.deepEqual(
    asked.filter((what) => what.startsWith("dialog") || /^\/x\d+$/.test(new URL(what).pathname)),
    [],
  );
  await stillOfUse();
  assert.deepEqual(phone.complaints, []);
});
