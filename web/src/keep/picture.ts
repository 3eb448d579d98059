// Makes a picture ready to be kept. It is decoded, drawn smaller and encoded
// anew, so that only what is seen remains: no place, no camera, no name.
import type { Picture } from "../store/photos.ts";

/** In pixels of the longer side. Markings on a terminal are still read at this size. */
const LARGEST = 1600;
const PREVIEW = 240;
const QUALITY = 0.85;

/** Errors: whatever the browser's decoder throws at a file that is no picture. */
export async function readPicture(file: Blob): Promise<Picture> {
  // Cameras write the picture as it fell on the sensor, and beside it which way is up.
  const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
  try {
    const { canvas, width, height } = drawn(bitmap, LARGEST);
    return { data: await encoded(canvas), preview: await encoded(drawn(bitmap, PREVIEW).canvas), width, height };
  } finally {
    bitmap.close();
  }
}

function drawn(bitmap: ImageBitmap, largest: number): { canvas: HTMLCanvasElement; width: number; height: number } {
  const scale = Math.min(1, largest / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const pen = canvas.getContext("2d");
  if (!pen) throw new Error("no drawing in this browser");
  pen.fillStyle = "#fff"; // what is clear in a drawing is paper
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return { canvas, width: canvas.width, height: canvas.height };
}

function encoded(canvas: HTMLCanvasElement): Promise<Blob> {
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error("the picture cannot be written"))),
      "image/jpeg",
      QUALITY,
    ),
  );
}
