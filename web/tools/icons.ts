// Draws the PNG icons from icon.svg. Run by hand after the drawing changes:
//   npx tsx tools/icons.ts
import { readFile } from "node:fs/promises";
import { chromium } from "playwright-core";
import { browserArgs, browserPath } from "../e2e/browser.ts";

const svg = await readFile(new URL("../public/icon.svg", import.meta.url), "utf8");
const browser = await chromium.launch({ executablePath: browserPath, args: browserArgs });
for (const { file, size, inset } of [
  { file: "icon-192.png", size: 192, inset: 0 },
  { file: "icon-512.png", size: 512, inset: 0 },
  // A maskable icon may lose a tenth on every side.
  { file: "icon-mask.png", size: 512, inset: 64 },
]) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const inner = size - 2 * inset;
  await page.setContent(
    `<body style="margin:0;background:${inset ? "#1c2321" : "transparent"}">` +
      `<div style="position:absolute;left:${inset}px;top:${inset}px;width:${inner}px;height:${inner}px">${svg}</div>`,
  );
  await page.screenshot({
    path: new URL(`../public/${file}`, import.meta.url).pathname,
    omitBackground: true,
  });
  await page.close();
}
await browser.close();
