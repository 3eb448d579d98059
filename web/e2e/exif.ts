// A photo as a camera writes it: turned on its side, with the place it was
// taken at. Laid out by hand after CIPA DC-008 (Exif 2.3), 4.5 and 4.6, and
// TIFF 6.0, section 2; the markers of a JPEG after ITU-T T.81, B.1.1.
import type { Page } from "playwright-core";

/** Which way is up: the sensor's picture is to be turned by a quarter to the right. */
const TURN_RIGHT = 6;

/** The place: 12° 34' 56" N, 65° 43' 21" E, in the middle of the sea. */
const latitude = [12, 34, 56];
const longitude = [65, 43, 21];

/** A JPEG of that size on the sensor, striped so that up and down are told apart. */
export async function photoWithPlace(page: Page, width: number, height: number): Promise<Buffer> {
  const plain = await page.evaluate(
    async ([w, h]) => {
      const canvas = document.createElement("canvas");
      [canvas.width, canvas.height] = [w, h];
      const pen = canvas.getContext("2d");
      if (!pen) throw new Error("no canvas");
      pen.fillStyle = "#888";
      pen.fillRect(0, 0, w, h);
      for (let i = 0; i < 12; i++) {
        pen.fillStyle = i % 2 ? "#d8d4c0" : "#c0662a";
        pen.fillRect((i * w) / 12, h / 4, w / 12 - 8, h / 2);
      }
      const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/jpeg", 0.9));
      return [...new Uint8Array(await (blob ?? new Blob()).arrayBuffer())];
    },
    [width, height] as const,
  );
  const jpeg = Buffer.from(plain);
  return Buffer.concat([jpeg.subarray(0, 2), app1(), jpeg.subarray(2)]);
}

function app1(): Buffer {
  const tiff = Buffer.alloc(140);
  tiff.write("II*\0", 0, "latin1");
  tiff.writeUInt32LE(8, 4); // where the first directory is
  directory(tiff, 8, [
    [0x0112, 3, 1, TURN_RIGHT], // Orientation, SHORT
    [0x8825, 4, 1, 38], // GPSInfo, LONG: where that directory is
  ]);
  directory(tiff, 38, [
    [1, 2, 2, "N".charCodeAt(0)], // GPSLatitudeRef, ASCII
    [2, 5, 3, 92], // GPSLatitude, RATIONAL
    [3, 2, 2, "E".charCodeAt(0)],
    [4, 5, 3, 116],
  ]);
  [...latitude, ...longitude].forEach((figure, i) => {
    tiff.writeUInt32LE(figure, 92 + 8 * i);
    tiff.writeUInt32LE(1, 96 + 8 * i);
  });
  const body = Buffer.concat([Buffer.from("Exif\0\0", "latin1"), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}

function directory(tiff: Buffer, at: number, entries: [tag: number, type: number, count: number, value: number][]): void {
  tiff.writeUInt16LE(entries.length, at);
  entries.forEach(([tag, type, count, value], i) => {
    const to = at + 2 + 12 * i;
    tiff.writeUInt16LE(tag, to);
    tiff.writeUInt16LE(type, to + 2);
    tiff.writeUInt32LE(count, to + 4);
    tiff.writeUInt32LE(value, to + 8);
  });
}

interface Segment {
  marker: number;
  body: Buffer;
}

/** The segments of a JPEG up to its first scan. */
function segments(jpeg: Buffer): Segment[] {
  const out: Segment[] = [];
  let at = 2;
  while (jpeg[at] === 0xff && jpeg[at + 1] !== 0xda) {
    const length = jpeg.readUInt16BE(at + 2);
    out.push({ marker: jpeg[at + 1] ?? 0, body: jpeg.subarray(at + 4, at + 2 + length) });
    at += 2 + length;
  }
  return out;
}

/**
 * What of a photo is not the picture: APP1 to APP15 and comments, but for the
 * profile that says how its colours are meant (ICC.1, annex B.4: an APP2).
 */
export function aside(jpeg: Buffer): Segment[] {
  return segments(jpeg)
    .filter(({ marker }) => (marker >= 0xe1 && marker <= 0xef) || marker === 0xfe)
    .filter(({ marker, body }) => !(marker === 0xe2 && body.toString("latin1", 0, 12) === "ICC_PROFILE\0"));
}

/** Width and height as the frame header says (T.81, B.2.2). */
export function sizeOf(jpeg: Buffer): { width: number; height: number } {
  const frame = segments(jpeg).find(({ marker }) => marker >= 0xc0 && marker <= 0xc2);
  if (!frame) throw new Error("no frame header");
  return { width: frame.body.readUInt16BE(3), height: frame.body.readUInt16BE(1) };
}
