// A technician who builds a panel on the phone. Every tap counts as one, and so
// does every word typed.
import type { Locator, Page } from "playwright-core";

export class Thumb {
  taps = 0;
  readonly page: Page;
  constructor(page: Page) {
    this.page = page;
  }

  async tap(where: Locator): Promise<void> {
    this.taps++;
    await where.tap();
  }

  /** The first one of that name; behind a sheet there may be another. */
  button(name: string | RegExp): Promise<void> {
    return this.tap(this.#top().getByRole("button", { name, exact: true }).first());
  }

  link(name: string | RegExp): Promise<void> {
    return this.tap(this.#top().getByRole("link", { name, exact: true }).first());
  }

  async type(field: string, word: string): Promise<void> {
    this.taps++;
    await this.#top().getByLabel(field).first().fill(word);
  }

  /** Takes the core's guess, once there is one. */
  async take(kind: string): Promise<void> {
    await this.tap(this.page.locator(".sheet .guess", { hasText: kind }).first());
    await this.page.locator(".sheet").waitFor({ state: "detached" });
  }

  async wire(from: string, to: string): Promise<void> {
    await this.button(from);
    await this.button(to);
    await this.page.locator(".wiring", { hasText: "Touch where the wire begins" }).waitFor();
    await this.page.locator(".wiring", { hasText: `${from} to ${to}` }).waitFor();
  }

  #top(): Page | Locator {
    return this.page.locator("dialog[open]").or(this.page.locator("#app:not(:has(dialog[open]))"));
  }
}

type Seen = (screen: string) => Promise<void>;

/** The panel around one transmitter: its feed, its fuse, its two wires, its input card. */
export async function buildAroundOneInstrument(
  page: Page,
  url: string,
  name: string,
  seen: Seen = async () => {},
): Promise<Thumb> {
  const thumb = new Thumb(page);
  await page.goto(url);
  await page.locator(".card").first().waitFor();
  await thumb.button("New panel");
  await thumb.type("Name", name);
  await seen("build-name");
  await thumb.button("Begin");
  await page.locator(".bar").waitFor();
  await seen("build-empty");
  await thumb.button("Strip"); // ten blocks, from 1 on, are offered
  await seen("build-strip");
  await thumb.button(/^A strip of 10/);
  await page.locator("#block-X1\\:10").waitFor();
  await thumb.tap(page.locator("#block-X1\\:1 button"));
  await thumb.type("What it is", "fused 500 mA F");
  await page.locator(".sheet .guess").first().waitFor();
  await seen("build-block");
  await thumb.take("fuse terminal");
  await thumb.button("Feed");
  await seen("build-feed");
  await thumb.tap(page.locator(".sheet .guess", { hasText: "from somewhere else" }));
  await page.locator(".sheet").waitFor({ state: "detached" });
  await thumb.button("Part");
  await thumb.type("What is it?", "PT-102");
  await page.locator(".sheet .guess").first().waitFor();
  await seen("build-part");
  await thumb.take("two-wire transmitter");
  await thumb.button("Part");
  await thumb.type("What is it?", "AI card");
  await thumb.take("analogue input card");
  await seen("build-strips");
  return thumb;
}

/** Its wires: out from the fuse and back over the card. */
export async function wireOneInstrument(thumb: Thumb, seen: Seen = async () => {}): Promise<void> {
  await thumb.button("Wire");
  await seen("build-wire");
  await thumb.wire("X1:1/in", "X2:1");
  await thumb.wire("X1:1/out", "B1:+");
  await thumb.wire("X1:3", "B1:-");
  await seen("build-wired");
  await thumb.wire("X1:3", "A1:0");
  await thumb.wire("X1:10", "A1:M");
  await thumb.wire("X1:10", "X2:2");
  await thumb.button("Done");
}
