// The worker that looks for a QR code in a picture, where the browser has no
// reader of its own. Apart, so that the page never stands still meanwhile.
import { decodeQR } from "qr/decode.js";
import type { Look, Seen } from "./reader.ts";

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<Look>) => void) | null;
  postMessage(message: Seen): void;
};

/** How hard is looked, in the library's tiers and milliseconds: a still picture comes once, a frame comes again. */
const PATIENT = { effort: 4, timeLimit: 3000 };
const HURRIED = 60;

/**
 * A phone too slow for that never reads a code that asks for more. So where nothing was
 * found the next frame gets twice as long, up to this.
 */
const UNHURRIED = 960;
let limit = HURRIED;

scope.onmessage = ({ data: { id, image, patient } }) => {
  try {
    const text = decodeQR(image, patient ? PATIENT : { timeLimit: limit });
    limit = HURRIED;
    scope.postMessage({ id, texts: [text] });
  } catch {
    limit = Math.min(2 * limit, UNHURRIED);
    scope.postMessage({ id, texts: [] }); // the library throws where there is no code
  }
};
