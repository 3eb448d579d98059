// One drill of each grade, from the first tap to the debrief, on a phone without
// a network, with a reload in the middle. The taps are counted.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Locator, Page } from "playwright-core";
import { phoneAlone, type Alone } from "./alone.ts";

let phone: Alone;

before(async () => {
  phone = await phoneAlone();
});
after(() => phone.end());

/** An apprentice's thumb: everything it does is counted. */
class Thumb {
  taps = 0;
  entries = 0;
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  async tap(what: Locator): Promise<void> {
    this.taps++;
    await what.click();
  }

  button(name: string | RegExp): Promise<void> {
    return this.tap(this.#page.getByRole("button", { name, exact: typeof name === "string" }).first());
  }

  /** Waits until one more act is on disk and shown. */
  async #done(): Promise<void> {
    await this.#page.locator(`[data-steps='${++this.entries}']`).waitFor();
  }

  async #view(name: string): Promise<void> {
    const link = this.#page.getByRole("link", { name, exact: true });
    if ((await link.getAttribute("aria-current")) === "page") return;
    await this.tap(link);
    await this.#page.locator("a[aria-current=page]", { hasText: name }).waitFor();
  }

  /** An act offered on the sheet of a thing. */
  async work(thing: string, act: string | RegExp): Promise<void> {
    await this.#view("Panel");
    await this.#find(thing);
    await this.tap(this.#page.locator(".choices .choice", { has: this.#page.locator(`b:text-is("${thing}")`) }).first());
    await this.tap(this.#page.locator("dialog[open] .choice", { hasText: act }).first());
    await this.#done();
  }

  async #find(typed: string): Promise<void> {
    this.taps++;
    await this.#page.locator("input[type=search]").first().fill(typed);
  }

  async #touch(point: string): Promise<void> {
    await this.#find(point.replace(/:.*/, ""));
    await this.button(point);
  }

  async probe(red: string, black: string): Promise<void> {
    await this.#view("Meter");
    await this.#touch(red);
    await this.#touch(black);
  }

  /** Reads with the reason given, and returns the figure. */
  async read(red: string, black: string, why: RegExp): Promise<string> {
    await this.probe(red, black);
    await this.button(why);
    await this.#done();
    return this.#page.locator(".happened .figure").innerText();
  }

  /** Locks out, and proves dead what hands go to. */
  async makeDead(device: string, pairs: [string, string][]): Promise<void> {
    await this.work(device, /^switch off/);
    await this.work(device, /^lock/);
    await this.button("Prove my tester");
    await this.#done();
    for (const [red, black] of pairs) {
      await this.probe(red, black);
      await this.button("Prove dead between these");
      await this.#done();
    }
    await this.#view("Panel");
    await this.button("Prove my tester");
    await this.#done();
  }

  async call(thing: string, kind: RegExp): Promise<void> {
    await this.button("Call it");
    this.taps++;
    await this.#page.locator("dialog[open] input[type=search]").fill(thing.replace(/~.*/, ""));
    await this.tap(this.#page.locator("dialog[open] .choice", { has: this.#page.locator(`b:text-is("${thing}")`) }));
    await this.button(kind);
    await this.#done();
  }

  async then(act: string): Promise<void> {
    await this.button("Call it");
    await this.button(act);
    if (act !== "hand the plant back") await this.#done();
  }
}

interface Search {
  thing: string;
  kind: RegExp;
  /** Done before the readings: "press S2" on S2. */
  first?: [thing: string, act: string];
  /** Readings, each with what it shows here; the last is the proof. */
  readings: [red: string, black: string, shown: RegExp][];
  /** Looked at after the readings, closely. */
  looks?: [thing: string, act: string][];
  /** Points between which the place of work is proved dead. */
  dead: [string, string][];
}

// The faults are the drills' own; the readings follow from the drawings.
const cases: { grade: number; name: string; searches: Search[] }[] = [
  {
    grade: 1,
    name: "The lamp that stays dark",
    searches: [
      {
        thing: "W17",
        kind: /^open:/,
        readings: [
          ["P1:X1", "P1:X2", /^-?0\.\d\d V$/],
          ["K1:24", "P1:X1", /^2\d\.\d\d V$/],
        ],
        looks: [["K1", "look closely at K1:24"]],
        dead: [
          ["K1:24", "X2:1"],
          ["P1:X1", "P1:X2"],
        ],
      },
    ],
  },
  {
    grade: 2,
    name: "Nothing says stopped",
    searches: [
      {
        thing: "X1:2~X1:3",
        kind: /^open:/,
        readings: [
          ["X1:3/in", "X2:1", /^-?0\.\d\d V$/],
          ["X1:2/in", "X2:1", /^2\d\.\d\d V$/],
          ["X1:2/in", "X1:3/in", /^2\d\.\d\d V$/],
        ],
        dead: [
          ["X1:2/in", "X2:1"],
          ["X1:2/out", "X2:1"],
          ["X1:3/in", "X2:1"],
          ["X1:3/out", "X2:1"],
        ],
      },
    ],
  },
  {
    grade: 3,
    name: "Two things stopped at once",
    searches: [
      {
        thing: "X1:1",
        kind: /^open:/,
        first: ["S2", "press S2"],
        readings: [
          ["S1:21", "X2:1", /^\d\.\d\d V$/],
          ["X1:1/in", "X1:1/out", /^2\d\.\d\d V$/],
        ],
        dead: [
          ["X1:1/in", "X2:1"],
          ["X1:1/out", "X2:1"],
        ],
      },
    ],
  },
  {
    grade: 4,
    name: "It was not only that",
    searches: [
      {
        thing: "W11",
        kind: /^open:/,
        first: ["S2", "press S2"],
        readings: [
          ["S1:22", "X2:1", /^2\d\.\d\d V$/],
          ["S1:22", "S2:13", /^2\d\.\d\d V$/],
        ],
        dead: [
          ["S1:22", "X2:1"],
          ["S2:13", "X2:1"],
        ],
      },
      {
        thing: "W18",
        kind: /^open:/,
        readings: [
          ["P1:X1", "P1:X2", /^-?0\.\d\d V$/],
          ["P1:X2", "X2:2", /^2\d\.\d\d V$/],
        ],
        dead: [
          ["P1:X1", "X2:2"],
          ["P1:X2", "X2:1"],
        ],
      },
    ],
  },
];

for (const { grade, name, searches } of cases) {
  test(`grade ${grade}: ${name}, found, mended and proved without a network`, async (t) => {
    const { page, url } = phone;
    await page.goto(`${url}#/drills`);
    const thumb = new Thumb(page);
    await thumb.button(new RegExp(`^${name}`));
    await page.locator(".complaint").waitFor();
    for (const { thing, kind, first, readings, looks, dead } of searches) {
      if (first) await thumb.work(...first);
      for (const [index, [red, black, shown]] of readings.entries()) {
        assert.match(await thumb.read(red, black, index === 0 ? /feed arrives/ : /prove what I think/), shown, `${red} ${black}`);
        if (index > 0) continue;
        await page.reload();
        await page.locator(`[data-steps='${thumb.entries}']`).waitFor();
      }
      for (const look of looks ?? []) await thumb.work(...look);
      if (first) await thumb.work(first[0], /^release/);
      await thumb.makeDead("F0", dead);
      await thumb.call(thing, kind);
      await thumb.then("repair what was called");
      await thumb.work("F0", /^lock off|^unlock|^take/);
      await thumb.work("F0", /^switch on/);
      await thumb.then("prove the function");
    }
    await thumb.then("hand the plant back");
    await thumb.button("I knew why at each step");
    await page.locator("[data-result]").waitFor();
    t.diagnostic(`${thumb.taps} taps`);
    const told = await page.locator(".body").innerText();
    assert.equal(await page.locator("[data-result]").getAttribute("data-result"), "found", told);
    assert.ok((await page.locator(".replay").count()) > 0, "there is no replay");
    assert.deepEqual(phone.complaints, []);
  });
}

test("a drill is made from a what-if, reckoned, and tried", async () => {
  const { page, url } = phone;
  const route = ["author", "demo:training-bench", "W17=broken"].map(encodeURIComponent).join("/");
  await page.goto(`${url}#/${route}`);
  await page.getByLabel("Name of the drill").fill("Dark again");
  await page.getByLabel("The complaint, in the caller's words").fill("The lamp for running is dark.");
  await page.getByRole("button", { name: "How hard is it?" }).click();
  await page.locator("[data-reckoned]").waitFor();
  assert.match(await page.locator("[data-reckoned]").innerText(), /The best plan: [1-9]\d* steps/);
  await page.getByRole("button", { name: "Try it" }).click();
  assert.equal(await page.locator(".complaint").innerText(), "The lamp for running is dark.");
  // What is handed out does not say what is hidden.
  const kept = await page.evaluate(
    () =>
      new Promise<string>((resolve, reject) => {
        const open = indexedDB.open("halfsplit");
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const all = open.result.transaction("drills").objectStore("drills").getAll();
          all.onsuccess = () => resolve(JSON.stringify(all.result));
        };
      }),
  );
  assert.ok(kept.includes("Dark again"), "the attempt was not kept");
  assert.ok(!kept.includes("W17=broken"), "the fault stands open in the file");
  // The file, handed out, is opened and taken like any other.
  const { record } = (JSON.parse(kept) as { title: string; record: { text: string } }[]).find(
    ({ title }) => title === "Dark again",
  ) ?? { record: { text: "" } };
  await page.goto(`${url}#/drills`);
  await page
    .locator("input[type=file]")
    .setInputFiles({ name: "dark.drill.json", mimeType: "application/json", buffer: Buffer.from(record.text) });
  await page.locator("[data-received=drill]").waitFor();
  await page.getByRole("button", { name: "Begin this drill" }).click();
  await page.locator(".complaint").waitFor();
  assert.equal(await page.locator(".complaint").innerText(), "The lamp for running is dark.");
  assert.deepEqual(phone.complaints, []);
});

test("the three short forms are marked by thumb and graded by solving the panel", async () => {
  const { page, url } = phone;
  for (const form of ["possible", "predict", "choose"]) {
    await page.goto(`${url}#/short/${encodeURIComponent("demo:training-bench")}/${form}/3`);
    await page.locator(`[data-form=${form}]`).waitFor(); // not the exercise before it
    for (const exercise of await page.locator(".exercise").all()) await exercise.locator("button").first().click();
    await page.getByRole("button", { name: "Grade it" }).click();
    const graded = page.locator("[data-right]");
    await graded.waitFor();
    const marked = await page.locator(".exercise-right, .exercise-wrong").count();
    assert.ok(marked > 1, `${form}: nothing was marked`);
    assert.equal(Number(await graded.getAttribute("data-right")), await page.locator(".exercise-right").count(), form);
    await page.getByRole("button", { name: "Another one" }).click();
    await page.getByRole("button", { name: "Grade it" }).waitFor();
  }
  assert.deepEqual(phone.complaints, []);
});
