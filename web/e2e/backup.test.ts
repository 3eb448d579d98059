// A backup of everything goes to another phone, and what differs there stays.
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { addPanel, newerDrawing, openRecords, restore, takePhoto, writeNote } from "./attach.ts";
import { photoWithPlace } from "./exif.ts";
import { handOut, jobAt, takeIn } from "./handing.ts";
import { putRecords, readMemory, type Memory } from "./memory.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { serve, type Served } from "./server.ts";

const DAY = 24 * 60 * 60 * 1000;

let server: Served;
let folder: string;
let profiles: Profile[];
let ours: Phone;
let other: Phone;
let panel: string;
let job: string;

before(async () => {
  server = await serve();
  folder = await mkdtemp(join(tmpdir(), "halfsplit-backup-"));
  profiles = [await newProfile(), await newProfile()];
  [ours, other] = (await Promise.all(profiles.map((profile) => profile.start()))) as [Phone, Phone];
  panel = await addPanel(ours.page, server.url, "Our bench");
  await ours.page.getByRole("button", { name: "Something is dead" }).click();
  await ours.page.locator(".mark").first().waitFor();
  job = /#\/job\/([^/]+)/.exec(ours.page.url())?.[1] ?? "";
  await mark(ours.page, 0, "Dead");
  await openRecords(ours.page, server.url, panel);
  await newerDrawing(ours.page, "Our bench, rewired");
  await ours.page.locator("[data-version='2']").waitFor();
  await writeNote(ours.page, "Ferrules are crimped twice");
  await takePhoto(ours.page, await photoWithPlace(ours.page, 2000, 1000));
  await putRecords(ours.page, "drills", [
    { id: "drill-1", panel, title: "Drill 7", started: "2026-03-01T06:00:00.000Z", record: { readings: [1, null, "OL"] } },
    { id: "drill-2", panel, title: "Drill 8", started: "2026-03-02T06:00:00.000Z", record: null },
  ]);
  // One record from elsewhere that was kept, and one that waits for a decision.
  await takeIn(ours.page, server.url, "job.json", jobAt(await handOut(ours.page, server.url, panel)));
  await ours.page.getByRole("button", { name: /^Keep it with Our bench/ }).click();
  await ours.page.waitForURL(/#\/paper\//);
  await ours.page.getByRole("button", { name: "All of it is back as it was" }).click();
  await ours.page.locator("[data-back]").waitFor();
  await takeIn(ours.page, server.url, "waits.json", jobAt(await handOut(ours.page, server.url, panel)).replace("P1 dead", "P2 dead"));
  await putRecords(ours.page, "trash", [
    { kind: "drill", id: "drill-2", title: "Drill 8", when: new Date().toISOString() },
  ]);
});
after(async () => {
  await ours.context.close();
  await other.context.close();
  await server.stop();
  for (const profile of profiles) await profile.remove();
  await rm(folder, { recursive: true, force: true });
});

async function mark(page: Page, index: number, how: "Dead" | "Works"): Promise<void> {
  const button = page.locator(".mark").nth(index).getByRole("button", { name: how });
  await button.click();
  await page.locator(`.mark:nth-child(${index + 1}) [aria-pressed="true"]`, { hasText: how }).waitFor();
}

/** One tap on the first screen. */
async function backUp({ page }: Phone, name: string): Promise<string> {
  await page.goto(server.url);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.locator(".keeping").getByRole("button", { name: "Back up" }).click(),
  ]);
  assert.match(download.suggestedFilename(), /^halfsplit-backup-\d{4}-\d\d-\d\d-\d\d-\d\d\.json$/);
  const path = join(folder, name);
  await download.saveAs(path);
  return path;
}

async function kept({ page }: Phone): Promise<Memory["stores"]> {
  const { settings: _, ...stores } = (await readMemory(page)).stores;
  return stores;
}

let first: string;

test("a backup is readable JSON, one record a line, pictures in base64", async () => {
  first = await backUp(ours, "first.json");
  const text = await readFile(first, "utf8");
  const backup = JSON.parse(text) as Record<string, unknown> & { images: { type: string; base64: string }[] };
  assert.equal(backup["format"], "halfsplit-backup");
  assert.equal(backup["version"], 1);
  const { settings: _, ...stores } = (await readMemory(ours.page)).stores;
  const lists = [...Object.keys(stores), "settings"]; // every store that there is
  for (const name of ["papers", "arrivals"]) assert.ok(lists.includes(name), name);
  for (const list of lists.filter((name) => name !== "settings")) assert.ok((backup[list] as unknown[]).length > 0, list);
  const records = lists.flatMap((list) => backup[list] as object[]);
  const lines = new Set(text.split("\n").map((line) => line.replace(/,$/, "")));
  for (const record of records) assert.ok(lines.has(JSON.stringify(record)), "a record is not on a line of its own");
  for (const { type, base64 } of backup.images) {
    assert.equal(type, "image/jpeg");
    // SOI and the next marker: ITU-T T.81, B.1.1.3.
    assert.deepEqual([...Buffer.from(base64, "base64").subarray(0, 3)], [0xff, 0xd8, 0xff]);
  }
  // Said once it is done, and the change is taken off the list.
  await ours.page.locator(".keeping", { hasText: "nothing has changed since" }).waitFor();
});

test("an empty phone has all of it afterwards, to the record, and twice is as once", async () => {
  const said = await restore(other.page, server.url, first);
  assert.match(said, /New on this phone: 8/); // panel, job, note, photo, paper, arrival and two drills
  assert.deepEqual(await kept(other), await kept(ours));
  assert.match(await restore(other.page, server.url, first), /New on this phone: 0\nHere already: 8/);
  assert.deepEqual(await kept(other), await kept(ours));
  await openRecords(other.page, server.url, panel);
  await other.page.locator("[data-paper]", { hasText: "The lamp stays dark." }).locator("a").click();
  await other.page.locator("[data-record]").waitFor();
  await other.page.locator("[data-back]").waitFor();
  await other.page.goto(server.url);
  await other.page.locator("[data-arrival]", { hasText: "P2 dead" }).waitFor();
  await openRecords(other.page, server.url, panel);
  await other.page.locator(".previews a").click();
  const shown = other.page.locator(".picture > img");
  await shown.waitFor();
  await other.page.waitForFunction(() => (document.querySelector(".picture > img") as HTMLImageElement).naturalWidth > 0);
});

test("a job that went on is gone on with; one that went two ways is kept twice", async () => {
  await ours.page.goto(`${server.url}#/job/${job}/marks`);
  await ours.page.locator(".mark").first().waitFor();
  await mark(ours.page, 1, "Works");
  const further = await backUp(ours, "further.json");
  assert.match(await restore(other.page, server.url, further), /New on this phone: 0\nHere already: 8/);
  assert.deepEqual(await kept(other), await kept(ours));

  await ours.page.goto(`${server.url}#/job/${job}/marks`);
  await ours.page.locator(".mark").first().waitFor();
  await mark(ours.page, 2, "Works");
  const split = await backUp(ours, "split.json");
  await other.page.goto(`${server.url}#/job/${job}/marks`);
  await other.page.locator(".mark").first().waitFor();
  await mark(other.page, 2, "Dead");
  const before = await kept(other);
  assert.match(await restore(other.page, server.url, split), /both are kept: 1/);
  const after = await kept(other);
  for (const [store, list] of Object.entries(before)) {
    const now = after[store]?.map((record) => JSON.stringify(record)) ?? [];
    for (const record of list) assert.ok(now.includes(JSON.stringify(record)), `${store} lost ${JSON.stringify(record)}`);
  }
  assert.equal(after["jobs"]?.length, 2);
  await openRecords(other.page, server.url, panel);
  await other.page.getByText("Kept beside another: the backup differed").waitFor();
  assert.match(await restore(other.page, server.url, split), /New on this phone: 0\nHere already: 8/);
  assert.deepEqual(await kept(other), after, "the second time added something");

  // Further on the same way: the copy goes on, and no third one is made.
  await ours.page.goto(`${server.url}#/job/${job}/marks`);
  await ours.page.locator(".mark").first().waitFor();
  await mark(ours.page, 1, "Dead");
  assert.match(await restore(other.page, server.url, await backUp(ours, "on.json")), /New on this phone: 0\nHere already: 8/);
  assert.equal((await kept(other))["jobs"]?.length, 2);
  assert.equal((await kept(other))["steps"]?.length, (after["steps"]?.length ?? 0) + 1);
});

test("a panel that was changed on both phones is kept twice, each with what it was", async () => {
  await openRecords(ours.page, server.url, panel);
  await newerDrawing(ours.page, "Our bench, by us");
  await ours.page.locator("[data-version='3']").waitFor();
  const file = await backUp(ours, "ours.json");
  await openRecords(other.page, server.url, panel);
  await newerDrawing(other.page, "Our bench, by others");
  await other.page.locator("[data-version='3']").waitFor();
  assert.match(await restore(other.page, server.url, file), /both are kept: 1/);
  const titles = (await kept(other))["panels"]?.map(({ title }) => title);
  assert.deepEqual(titles?.sort(), ["Our bench, by others", "Our bench, by us"]);
});

test("what was removed there and is shown in the backup is shown again", async () => {
  await other.page.goto(server.url);
  await other.page.getByRole("button", { name: "Remove Our bench, by others" }).click();
  await other.page.getByText("Removed: Our bench, by others").waitFor();
  await restore(other.page, server.url, first);
  await other.page.goto(server.url);
  await other.page.getByRole("link", { name: "Our bench, by others" }).waitFor();
});

const bad: { what: string; text: (whole: string) => string; want: RegExp }[] = [
  { what: "a panel", text: () => '{"format": "halfsplit-panel", "version": 1}', want: /not a backup/ },
  { what: "an empty file", text: () => "", want: /damaged or cut short/ },
  { what: "half a backup", text: (whole) => whole.slice(0, whole.length / 2), want: /damaged or cut short/ },
  { what: "a later version", text: (whole) => whole.replace('"version": 1', '"version": 2'), want: /later version/ },
];
for (const { what, text, want } of bad) {
  test(`${what} is refused, and nothing that shows has changed`, async () => {
    const { page } = other;
    const path = join(folder, "bad.json");
    await writeFile(path, text(await readFile(first, "utf8")));
    const { images: _, ...before } = await kept(other);
    assert.match(await restore(page, server.url, path), want);
    const { images: __, ...after } = await kept(other);
    assert.deepEqual(after, before);
  });
}

test("what a backup holds beside records is left out and counted", async () => {
  const whole = JSON.parse(await readFile(first, "utf8")) as { notes: object[]; future: unknown };
  whole.notes.push({ id: "note-x" }, { ...whole.notes[0], id: "note-y", text: 7 });
  whole.future = [{ a: 1 }];
  const path = join(folder, "odd.json");
  await writeFile(path, JSON.stringify(whole));
  assert.match(await restore(other.page, server.url, path), /left out: 2/);
});

test("a week of changes without a backup is said, quietly, and a day less is not", async () => {
  const { page } = ours;
  const since = async (days: number): Promise<string | null> => {
    await putRecords(page, "settings", [
      { key: "changed-first", value: new Date(Date.now() - days * DAY).toISOString() },
    ]);
    await page.goto(server.url);
    await page.reload();
    await page.locator(".keeping[data-due]").waitFor();
    return page.locator(".keeping").getAttribute("data-due");
  };
  assert.equal(await since(6.9), "false");
  assert.equal(await since(7.1), "true");
  await page.getByText("A week of changes is only on this phone.").waitFor();
  await backUp(ours, "week.json");
  await page.locator(".keeping[data-due='false']").waitFor();
  assert.deepEqual(ours.complaints, []);
  assert.deepEqual(other.complaints, []);
});
