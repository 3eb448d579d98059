// "make shots": every screen as a picture, light and dark, in web/shots. They
// are made to be opened and judged.
import { mkdir, rm } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { newProfile } from "./phone.ts";
import { serve } from "./server.ts";
import { tour } from "./tour.ts";

const folder = fileURLToPath(new URL("../shots/", import.meta.url));

await rm(folder, { recursive: true, force: true });
await mkdir(folder, { recursive: true });
const server = await serve();
try {
  for (const dark of [false, true]) {
    const profile = await newProfile(); // what one tour leaves behind would meet the next as known
    const { context, page } = await profile.start({ dark });
    let number = 0;
    await tour(page, server.url, async (name) => {
      const file = `${String(++number).padStart(2, "0")}-${name}-${dark ? "dark" : "light"}.png`;
      await page.screenshot({ path: `${folder}${file}` });
      console.log(file);
    });
    await context.close();
    await profile.remove();
  }
} finally {
  await server.stop();
}
