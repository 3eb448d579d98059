// Photos and notes: what is kept of them, what is not, and what they may do.
import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { addPanel, openRecords, removePhoto, takePhoto, writeNote } from "./attach.ts";
import { eventually } from "./eventually.ts";
import { aside, photoWithPlace, sizeOf } from "./exif.ts";
import { readMemory } from "./memory.ts";
import { phoneServed, type Alone } from "./alone.ts";

let phone: Alone;

before(async () => {
  phone = await phoneServed();
});
after(() => phone.end());

/** Every picture on the phone, byte by byte; previews too. */
async function pictures(page: Page): Promise<Buffer[]> {
  const all = await page.evaluate(
    () =>
      new Promise<Blob[]>((resolve) => {
        const open = indexedDB.open("halfsplit");
        open.onsuccess = () => {
          const tx = open.result.transaction(["images", "photos"]);
          const images = tx.objectStore("images").getAll();
          const photos = tx.objectStore("photos").getAll();
          tx.oncomplete = () => {
            open.result.close();
            resolve([...images.result.map(({ data }) => data as Blob), ...photos.result.map(({ preview }) => preview as Blob)]);
          };
        };
      }).then((blobs) => Promise.all(blobs.map(async (blob) => [...new Uint8Array(await blob.arrayBuffer())]))),
  );
  return all.map((bytes) => Buffer.from(bytes));
}

test("a photo is kept upright, at most 1600 px, and without the place it was taken at", async () => {
  const { page } = phone;
  await page.goto(phone.url);
  await page.locator(".card").first().waitFor();
  const taken = await photoWithPlace(page, 2400, 1200);
  assert.equal(aside(taken).length, 1, "the photo carries nothing to strip");
  assert.ok(taken.includes("Exif"));

  await page.getByRole("link", { name: /^Dosing skid/ }).click();
  await page.locator("#block-X3\\:2 button").click();
  await takePhoto(page, taken);
  const kept = await pictures(page);
  assert.equal(kept.length, 2, "one picture and its preview");
  for (const jpeg of kept) {
    assert.deepEqual(aside(jpeg), []);
    assert.ok(!jpeg.includes("Exif"));
  }
  // On the sensor it lay on its side: what is kept stands upright.
  assert.deepEqual(kept.map(sizeOf), [
    { width: 800, height: 1600 },
    { width: 120, height: 240 },
  ]);
  const [record] = (await readMemory(page)).stores["photos"] ?? [];
  const { panel, thing, width, height, bytes } = record ?? {};
  assert.deepEqual(
    { panel, thing, width, height, bytes },
    { panel: "demo:dosing-skid", thing: "X3:2", width: 800, height: 1600, bytes: kept[0]?.length },
  );
});

test("a mark is placed with a finger or with keys, names a terminal and opens it", async () => {
  const { page } = phone;
  const mark = async (place: () => Promise<void>): Promise<void> => {
    await page.getByRole("button", { name: "Mark a terminal" }).click();
    await place();
    await page.getByRole("button", { name: "Which terminal?" }).click();
    await page.getByRole("searchbox").fill("X3:2");
    await page.getByRole("button", { name: "X3:2", exact: true }).click();
  };
  await page.waitForFunction(() => (document.querySelector(".picture > img") as HTMLImageElement).naturalWidth > 0);
  const box = await page.locator(".picture").boundingBox();
  assert.ok(box);
  await mark(() => page.locator(".picture").click({ position: { x: box.width / 4, y: box.height / 10 } }));
  await page.locator(".pin-row").nth(0).waitFor();
  await mark(async () => {
    await page.locator(".pin-new").press("ArrowLeft");
    await page.locator(".pin-new").press("ArrowDown");
  });
  await page.locator(".pin-row").nth(1).waitFor();
  const [record] = (await readMemory(page)).stores["photos"] ?? [];
  const marks = record?.["marks"] as { x: number; y: number; terminal: string }[];
  assert.equal(marks.length, 2);
  assert.ok(Math.abs((marks[0]?.x ?? 0) - 250) <= 5 && Math.abs((marks[0]?.y ?? 0) - 100) <= 5, JSON.stringify(marks));
  assert.deepEqual(marks[1], { x: 480, y: 520, terminal: "X3:2" });

  await page.getByRole("button", { name: "Mark 1, X3:2", exact: true }).click();
  await page.getByRole("heading", { name: "X3:2", level: 2 }).waitFor();
  await eventually(async () =>
    assert.equal(await page.locator(".sheet .previews li").count(), 1, "the terminal does not show its photo"),
  );
  await page.locator(".sheet").getByRole("button", { name: "Close" }).click();

  await page.getByRole("button", { name: "Remove Mark 2, X3:2" }).click();
  await page.locator(".pin-row").nth(1).waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".pin-row").nth(1).waitFor();
});

test("a removed photo comes back with one tap, and one gone for good leaves no picture", async () => {
  const { page } = phone;
  await removePhoto(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".picture > img").waitFor();
  await removePhoto(page);
  await page.goto(`${phone.url}#/deleted`);
  await page.locator("[data-away=photo]").waitFor();
  await page.getByRole("button", { name: "Delete for good" }).click();
  await page.getByRole("button", { name: "No, leave it here" }).click();
  await page.locator("[data-away=photo]").waitFor();
  assert.equal((await pictures(page)).length, 2, "it went although one said no");
  await page.getByRole("button", { name: "Delete for good" }).click();
  await page.locator(".sheet").getByRole("button", { name: "Delete for good" }).click();
  await page.locator("[data-away=photo]").waitFor({ state: "detached" });
  assert.equal((await pictures(page)).length, 0);
});

test("a file that is no picture is refused, and nothing is kept of it", async () => {
  const { page } = phone;
  await openRecords(page, phone.url, "demo:dosing-skid");
  const chooser = page.locator("input[accept='image/*']").last();
  await chooser.setInputFiles({ name: "x.jpg", mimeType: "image/jpeg", buffer: Buffer.from("<svg onload=alert(1)>") });
  await page.getByRole("alert").getByText("cannot read that file as a picture").waitFor();
  assert.equal((await pictures(page)).length, 0);
});

const hostile = `<img src=x onerror="document.title='run'"><script>document.title='run'</script> & "quotes"\nsecond line`;

test("what people and files write is shown as text", async () => {
  const { page } = phone;
  await openRecords(page, phone.url, "demo:dosing-skid");
  await writeNote(page, hostile);
  assert.equal(await page.locator(".note-text p").innerText(), hostile);
  await addPanel(page, phone.url, hostile);
  assert.match(await page.getByRole("heading", { level: 1 }).innerText(), /^<img src=x/);
  await page.goto(phone.url);
  assert.match(await page.locator(".card-row b").innerText(), /^<img src=x/);
  assert.equal(await page.locator("main img, main script").count(), 0);
  assert.doesNotMatch(await page.title(), /^run/);
  assert.deepEqual(phone.complaints, []);
});

test("the page's sources have no way to make markup of text", async () => {
  const root = new URL("../src/", import.meta.url);
  const names = (await readdir(root, { recursive: true })).filter((name) => /\.tsx?$/.test(name));
  assert.ok(names.length > 50, `only ${names.length} sources were read`);
  for (const name of names) {
    const text = await readFile(new URL(name, root), "utf8");
    assert.doesNotMatch(text, /innerHTML|outerHTML|insertAdjacentHTML|document\.write\(|srcdoc|createContextualFragment/, name);
  }
});
