// The worker that looks for a QR code in a picture, where the browser has no
// reader of its own. Apart, so that the page never stands still meanwhile.
import { decodeQR } from "qr/decode.js";
import type { Look, Seen } from "./reader.ts";

const scope = self as unknown as {
  onmessage: ((event: MessageEvent<Look>) => void) | null;
  postMessage(message: Seen): void;
};

/** How hard is looked, in the library's tiers and milliseconds: a still picture comes once, a frame comes again. */
const HURRIED = { timeLimit: 60 };
const PATIENT = { effort: 4, timeLimit: 3000 };

scope.onmessage = ({ data: { id, image, patient } }) => {
  try {
    scope.postMessage({ id, texts: [decodeQR(image, patient ? PATIENT : HURRIED)] });
  } catch {
    scope.postMessage({ id, texts: [] }); // the library throws where there is no code
  }
};
