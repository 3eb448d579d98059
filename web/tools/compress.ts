// Puts a brotli and a gzip file beside every text and wasm file of the built
// page. Done at build time: at its best setting brotli takes seconds.
import { readdir, readFile, writeFile } from "node:fs/promises";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

const dist = new URL("../dist/", import.meta.url);
const files = (await readdir(dist, { recursive: true })).filter((name) =>
  /\.(html|js|css|wasm|svg|webmanifest)$/.test(name),
);
await Promise.all(
  files.map(async (name) => {
    const raw = await readFile(new URL(name, dist));
    const [br, gz] = await Promise.all([
      promisify(brotliCompress)(raw, {
        params: {
          [constants.BROTLI_PARAM_QUALITY]: 11,
          [constants.BROTLI_PARAM_LGWIN]: 24,
          [constants.BROTLI_PARAM_SIZE_HINT]: raw.length,
        },
      }),
      promisify(gzip)(raw, { level: 9 }),
    ]);
    await writeFile(new URL(`${name}.br`, dist), br);
    await writeFile(new URL(`${name}.gz`, dist), gz);
  }),
);
