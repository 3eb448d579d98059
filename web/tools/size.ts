// Weighs the built page as a phone downloads it, brotli. Fails when the core
// or the whole is over its limit, or when there is nothing to weigh.
import { readdir, stat } from "node:fs/promises";

// Wanted for the core: 1.2 MB, kept until drills, building and sharing came into it. They belong into a
// module of their own that is loaded with the first drill or edit; until then this is what there is.
const limits = { core: 1_700_000, everything: 1_900_000 };

const dist = new URL("../dist/", import.meta.url);
const names = (await readdir(dist, { recursive: true })).filter(
  (name) => !/\.(br|gz)$/.test(name) && !name.endsWith(".keep"),
);
let core = 0;
let everything = 0;
for (const name of names.sort()) {
  const info = await stat(new URL(name, dist));
  if (info.isDirectory()) continue;
  const sent = (await stat(new URL(`${name}.br`, dist)).catch(() => info)).size;
  everything += sent;
  if (/core.*\.wasm$/.test(name)) core += sent;
  console.log(`${sent.toLocaleString("en").padStart(12)}  ${name}`);
}
console.log(`${core.toLocaleString("en").padStart(12)}  the core (limit ${limits.core.toLocaleString("en")})`);
console.log(
  `${everything.toLocaleString("en").padStart(12)}  everything (limit ${limits.everything.toLocaleString("en")})`,
);
if (core === 0) throw new Error('no core was built: run "make web"');
if (core > limits.core) throw new Error("the core is over its limit");
if (everything > limits.everything) throw new Error("the page is over its limit");
