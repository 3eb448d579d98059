// Writes src/core/api.ts, the types of what crosses the seam of the core, from
// the schema of the Go types. With "--check" it writes nothing and fails when
// the file is not what would be written.
import { readFile, writeFile } from "node:fs/promises";
import { compile } from "json-schema-to-typescript";

const schema = JSON.parse(await readFile(new URL("../gen/api.schema.json", import.meta.url), "utf8"));
const file = new URL("../src/core/api.ts", import.meta.url);
const text = await compile(schema, "Seam", {
  bannerComment: '// Generated from the Go types of package api: "make types". Do not edit.',
  additionalProperties: false,
});
if (process.argv.includes("--check")) {
  if ((await readFile(file, "utf8").catch(() => "")) !== text) {
    throw new Error('src/core/api.ts is older than the Go types: run "make types"');
  }
} else {
  await writeFile(file, text);
}
