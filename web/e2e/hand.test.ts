// A panel goes from one phone to another: by codes read with a camera, by codes
// in pictures without camera or network, by link, file and what the phone sends.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import type { Page } from "playwright-core";
import { phoneAlone, type Alone } from "./alone.ts";
import { eventually } from "./eventually.ts";
import { arrived, asFile, filmOf, pictureOfCode, picturesOfCodes } from "./hand.ts";
import { newProfile, type Phone, type Profile } from "./phone.ts";
import { program, serve, type Served } from "./server.ts";

const run = promisify(execFile);
const skid = await readFile(new URL("../../scenarios/dosing-skid.json", import.meta.url), "utf8");
const bench = await readFile(new URL("../../scenarios/training-bench.json", import.meta.url), "utf8");

let server: Served;
let folder: string;
let profile: Profile;
/** The phone that hands over. */
let phone: Phone;

before(async () => {
  server = await serve();
  folder = await mkdtemp(join(tmpdir(), "halfsplit-hand-"));
  profile = await newProfile();
  phone = await profile.start();
});
after(async () => {
  await phone.context.close();
  await profile.remove();
  await server.stop();
  await rm(folder, { recursive: true, force: true });
});

const names = { "dosing-skid": "Dosing skid", "training-bench": "Training bench" };

async function share(demo: keyof typeof names): Promise<Page> {
  const { page } = phone;
  await page.goto("about:blank"); // so that the loop begins anew
  await page.goto(`${server.url}#/share/panel/${encodeURIComponent(`demo:${demo}`)}`);
  await page.locator(".plate p").filter({ hasText: names[demo] }).waitFor();
  await page.locator("[data-code='1'] canvas[data-drawn^='Code 1 of ']").waitFor();
  return page;
}

/** Another order of the same, the same each time. */
function shuffled<T>(list: readonly T[], seed: number): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    seed = (seed * 1103515245 + 12345) % 2 ** 31;
    const j = seed % (i + 1);
    [out[i], out[j]] = [out[j] as T, out[i] as T];
  }
  return out;
}

const foreign = "https://example.org/spare-parts/4711";
/** As ours looks, with a checksum that does not agree. */
const garbage = "HS1:00C0FFEE:1:3:DEADBEEF:ABC.";

test("codes on one screen, read by another phone's camera, are the panel byte for byte", async () => {
  const codes = await picturesOfCodes(await share("dosing-skid"), "jpeg");
  assert.ok(codes.length > 5, `only ${codes.length} codes`);
  const between = [await pictureOfCode(phone.page, foreign, "jpeg"), await pictureOfCode(phone.page, garbage, "jpeg")];
  // Shown again and again: without the fourth at first, then all of them.
  const lost = codes[3];
  const first = shuffled([...codes.filter((code) => code !== lost), ...between], 7);
  const film = join(folder, "codes.mjpeg");
  await writeFile(film, filmOf([...first, ...shuffled(codes, 11)], 0.5));

  const other = await newProfile();
  const { context, page, complaints } = await other.start({
    flags: ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", `--use-file-for-fake-video-capture=${film}`],
  });
  context.setDefaultTimeout(500_000); // a film takes its time on a busy computer
  try {
    await page.goto(server.url);
    const said = await listen(page);
    await page.getByRole("link", { name: "Scan codes" }).click();
    await startCamera(page);
    await page
      .waitForURL(/#\/received\//)
      .catch(async () => assert.fail([await page.locator("main").innerText(), ...(await said()), ...complaints].join("\n")));
    assert.deepEqual(await arrived(page), [skid]);
    const all = await said();
    assert.ok(all.some((one) => /^That code is of something else: https:\/\/example\.org/.test(one)), all.join("\n"));
    assert.ok(all.some((one) => /^\d+ of \d+ codes\. Missing: \d/.test(one)), all.join("\n"));
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
    await other.remove();
  }
});

/** A camera that takes too long to start, on a busy computer, is asked again as a person does. */
async function startCamera(page: Page): Promise<void> {
  for (let tries = 0; tries < 5; tries++) {
    await page.locator(".finder[data-on=true], [data-no-camera]").waitFor();
    if ((await page.locator("[data-no-camera]").count()) === 0) return;
    await page.getByRole("button", { name: "Try again" }).click();
    await page.locator(".finder").waitFor();
  }
  assert.fail(`no camera: ${await page.locator("main").innerText()}`);
}

/** Notes everything that is read out from now on, also over screens. */
async function listen(page: Page): Promise<() => Promise<string[]>> {
  await page.evaluate(() => {
    const heard: string[] = [];
    Object.assign(window, { heard });
    new MutationObserver(() => {
      const now = document.querySelector(".scan-said")?.textContent ?? "";
      if (now !== "" && now !== heard.at(-1)) heard.push(now);
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  return () => page.evaluate(() => (window as unknown as { heard: string[] }).heard);
}

test("the camera is on while its screen is seen, and only then", async () => {
  const other = await newProfile();
  const { context, page } = await other.start({
    flags: ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"],
  });
  try {
    await page.goto(`${server.url}#/scan`);
    await startCamera(page);
    // Every track ever given, to see later whether it was ended.
    await page.evaluate(() => {
      const video = document.querySelector("video")?.srcObject as MediaStream;
      Object.assign(window, { tracks: video.getTracks() });
    });
    const states = (): Promise<string[]> =>
      page.evaluate(() => (window as unknown as { tracks: MediaStreamTrack[] }).tracks.map(({ readyState }) => readyState));
    assert.deepEqual(await states(), ["live"]);
    await turn(page, "hidden");
    await page.locator(".finder[data-on=false]").waitFor();
    await eventually(async () => assert.deepEqual(await states(), ["ended"]));
    await turn(page, "visible");
    await page.locator(".finder[data-on=true]").waitFor();
    await page.evaluate(() => {
      const video = document.querySelector("video")?.srcObject as MediaStream;
      Object.assign(window, { tracks: video.getTracks() });
    });
    assert.deepEqual(await states(), ["live"]);
    await page.getByRole("link", { name: "Back" }).click();
    await page.locator(".card").first().waitFor();
    await page.waitForFunction(() => (window as unknown as { tracks: MediaStreamTrack[] }).tracks[0]?.readyState === "ended");
  } finally {
    await context.close();
    await other.remove();
  }
});

/** As when the phone is locked or another program comes to the front. */
const turn = (page: Page, state: "hidden" | "visible"): Promise<void> =>
  page.evaluate((now) => {
    Object.defineProperty(document, "visibilityState", { configurable: true, get: () => now });
    document.dispatchEvent(new Event("visibilitychange"));
  }, state);

test("a camera that is refused or busy is told as such, and another try may succeed", async () => {
  const other = await newProfile();
  const { context, page } = await other.start({ flags: ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"] });
  try {
    // The errors that Media Capture and Streams names for these.
    await page.addInitScript(() => {
      const { mediaDevices } = navigator;
      const real = mediaDevices.getUserMedia.bind(mediaDevices);
      const answers = ["NotAllowedError", "NotReadableError"];
      mediaDevices.getUserMedia = (wanted) => {
        const refused = answers.shift();
        return refused ? Promise.reject(new DOMException("no", refused)) : real(wanted);
      };
    });
    await page.goto(`${server.url}#/scan`);
    await page.locator("[data-no-camera=refused]").waitFor();
    await page.getByRole("button", { name: "Try again" }).click();
    await page.locator("[data-no-camera=busy]").waitFor();
    await page.getByRole("button", { name: "Try again" }).click();
    await page.locator(".finder[data-on=true]").waitFor();
  } finally {
    await context.close();
    await other.remove();
  }
});

test("without a camera and without a network, pictures of the codes do", async () => {
  const codes = await picturesOfCodes(await share("dosing-skid"), "png");
  const others = await picturesOfCodes(await share("training-bench"), "png");
  const strange = await pictureOfCode(phone.page, foreign, "png");
  const broken = await pictureOfCode(phone.page, garbage, "png");
  const alone: Alone = await phoneAlone();
  const { page } = alone;
  try {
    await page.goto(`${alone.url}#/scan`);
    await page.locator("[data-no-camera=absent]").waitFor();
    const show = (...pictures: Buffer[]): Promise<void> =>
      page.getByLabel("Read a picture").setInputFiles(pictures.map((picture) => asFile(picture)));
    const says = (what: RegExp): Promise<void> => page.locator(".scan-said").filter({ hasText: what }).waitFor();

    const order = shuffled(codes.map((_, index) => index), 5);
    const lost = order.pop() as number;
    const at = (index: number): Buffer => codes[index] as Buffer;
    await show(at(order[0] as number));
    await says(new RegExp(`^1 of ${codes.length} codes`));
    await show(strange);
    await says(/^That code is of something else: https:\/\/example\.org/);
    await show(broken);
    await page.getByRole("alert").filter({ hasText: "could be read to its end" }).waitFor();
    await show(at(order[0] as number), at(order[1] as number), at(order[1] as number));
    await says(new RegExp(`^2 of ${codes.length} codes`));
    await show(others[0] as Buffer);
    await says(/^1 of 2 codes/);
    await page.getByText("Codes of another set, left aside: 2.").waitFor();
    await show(Buffer.from("no picture at all"));
    await says(/^No code can be read in that picture/);
    await show(...order.slice(2).map(at));
    await says(new RegExp(`^${codes.length - 1} of ${codes.length} codes\\. Missing: ${lost + 1}\\.`));
    await page.getByText("Codes of another set, left aside: 1.").waitFor();
    assert.deepEqual(await arrived(page), []);
    await show(at(lost));
    await page.waitForURL(/#\/received\//);
    assert.deepEqual(await arrived(page), [skid]);
  } finally {
    await alone.end();
  }
});

test("a reader of the system that does not work is done without", async () => {
  const [code] = await picturesOfCodes(await share("training-bench"), "png");
  const other = await newProfile();
  const { context, page } = await other.start();
  try {
    // Shape Detection API: promised, and then there is no service behind it.
    await page.addInitScript(() => {
      class BarcodeDetector {
        static getSupportedFormats = () => Promise.resolve(["qr_code"]);
        detect = () => Promise.reject(new DOMException("no service", "NotSupportedError"));
      }
      Object.assign(window, { BarcodeDetector });
    });
    await page.goto(`${server.url}#/scan`);
    await page.locator("[data-no-camera]").waitFor();
    await page.getByLabel("Read a picture").setInputFiles(asFile(code as Buffer));
    await page.locator(".scan-said").filter({ hasText: /^1 of 2 codes/ }).waitFor();
  } finally {
    await context.close();
    await other.remove();
  }
});

test("codes run by themselves, faster, slower, and by hand where motion is not wanted", async () => {
  const page = await share("dosing-skid");
  const run = page.getByRole("button", { name: "Run" });
  await run.waitFor(); // this phone asks for less motion
  await page.getByRole("button", { name: "The code before" }).click();
  await page.locator("[data-code='11']").waitFor();
  await page.getByRole("button", { name: "The next code" }).click();
  await page.locator("[data-code='1']").waitFor();
  await run.click();
  for (const n of [2, 3, 4]) await page.locator(`[data-code='${n}']`).waitFor();
  await page.getByRole("button", { name: "Faster" }).click();
  await page.getByRole("button", { name: "Faster", disabled: true }).waitFor();
  for (let n = 0; n < 3; n++) await page.getByRole("button", { name: "Slower" }).click();
  await page.locator(".codes-speed span", { hasText: /^1 a second$/ }).waitFor();
  await page.getByRole("button", { name: "Stop" }).click();
  await page.emulateMedia({ reducedMotion: "no-preference" });
  await page.reload();
  await page.locator("[data-code='2']").waitFor();
  await page.emulateMedia({ reducedMotion: "reduce" });
});

test("every module is a whole number of dots, black on white in the dark too", async () => {
  const page = await share("training-bench");
  await page.emulateMedia({ colorScheme: "dark" });
  const { dots, sides, colours } = await page.locator("canvas").evaluate((canvas: HTMLCanvasElement) => {
    const { data } = (canvas.getContext("2d") as CanvasRenderingContext2D).getImageData(0, 0, canvas.width, canvas.height);
    const found = new Set<string>();
    for (let i = 0; i < data.length; i += 4) found.add(data.slice(i, i + 4).join());
    const box = canvas.getBoundingClientRect();
    return { dots: canvas.width, sides: [box.width, box.height].map((side) => side * devicePixelRatio), colours: [...found].sort() };
  });
  assert.deepEqual(colours, ["0,0,0,255", "255,255,255,255"]);
  assert.deepEqual(sides, [dots, dots], "the browser scales the code");
  // Version 15 is 77 modules, with the quiet zone 85; 336 px of 2 dots each hold 7 dots a module.
  assert.equal(dots, 85 * 7);
});

/** What the command reads out of a link. */
async function openLink(link: string): Promise<string> {
  const file = join(folder, "link.txt");
  await writeFile(file, link);
  return (await run(program, ["unpack", file])).stdout;
}

test("link, file and what is sent hold the same document", async () => {
  const { page } = phone;
  await phone.context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.addInitScript(() => {
    Object.assign(navigator, {
      canShare: ({ files }: ShareData) => files?.length === 1 && files[0]?.name.endsWith(".txt"),
      share: async ({ files, title }: ShareData) => {
        const file = files?.[0] as File;
        Object.assign(window, { sent: { title, name: file.name, type: file.type, text: await file.text() } });
      },
    });
  });
  await page.reload();
  await share("training-bench");

  await page.getByRole("button", { name: "Copy link" }).click();
  await page.getByRole("status").filter({ hasText: "Link copied" }).waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  assert.ok(link.startsWith(`${server.url}#/open/open=`), link);
  assert.equal(await openLink(link), bench);

  const coming = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as file" }).click();
  const saved = await coming;
  assert.equal(saved.suggestedFilename(), "Training bench.halfsplit.json");
  assert.equal(await readFile(await saved.path(), "utf8"), bench);

  await page.getByRole("button", { name: "Send" }).click();
  await page.getByRole("status").filter({ hasText: "Training bench.halfsplit.txt" }).waitFor();
  const sent = await page.evaluate(() => (window as unknown as { sent: object }).sent);
  // The kinds a browser sends on: the Chromium project's list for Web Share has text/plain, and no JSON.
  assert.deepEqual(sent, { title: "Training bench", name: "Training bench.halfsplit.txt", type: "text/plain", text: bench });
});

test("a link that messages would cut is not offered, and why", async () => {
  const page = await share("dosing-skid");
  await page.getByText(/^No link: it would be 5,\d{3} characters long/).waitFor();
  assert.equal(await page.getByRole("button", { name: "Copy link" }).count(), 0);
});

test("without a clipboard the link is there to be taken by hand", async () => {
  const page = await share("training-bench");
  await page.evaluate(() => {
    navigator.clipboard.writeText = () => Promise.reject(new DOMException("no", "NotAllowedError"));
  });
  await page.getByRole("button", { name: "Copy link" }).click();
  assert.equal(await openLink(await page.getByRole("textbox", { name: "The link" }).inputValue()), bench);
});
