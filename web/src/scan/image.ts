// Pixels for the reader, of a frame or of a picture from a file.

const canvas = document.createElement("canvas");

/** The sides a picture is looked at with, longest side in pixels: far codes need more, blurred ones less. */
export const SIDES = [1200, 2400] as const;

/** Null while there is no frame yet. */
export function frameOf(video: HTMLVideoElement): ImageData | null {
  return video.videoWidth === 0 ? null : pixels(video, video.videoWidth, video.videoHeight);
}

export function imageOf(picture: ImageBitmap, side: number): ImageData {
  const scale = Math.min(1, side / Math.max(picture.width, picture.height));
  return pixels(picture, Math.round(picture.width * scale), Math.round(picture.height * scale));
}

function pixels(source: CanvasImageSource, width: number, height: number): ImageData {
  if (canvas.width !== width) canvas.width = width;
  if (canvas.height !== height) canvas.height = height;
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  if (!pen) throw new Error("no canvas");
  pen.drawImage(source, 0, 0, width, height);
  return pen.getImageData(0, 0, width, height);
}
