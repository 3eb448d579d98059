// Reads QR codes in pictures: with the browser's own reader where it has one,
// else with ours in a worker.
export interface Reader {
  /** The texts of the codes in a picture. Patient takes longer and finds more. */
  read(image: ImageData, patient: boolean): Promise<string[]>;
  close(): void;
}

/** What the worker is asked, and what it answers. */
export interface Look {
  id: number;
  image: { width: number; height: number; data: Uint8ClampedArray };
  patient: boolean;
}
export interface Seen {
  id: number;
  texts: string[];
}

/** The part of the Shape Detection API that is used. */
interface Detector {
  detect(image: ImageData): Promise<{ rawValue: string }[]>;
}
interface Detectors {
  new (options: { formats: string[] }): Detector;
  getSupportedFormats(): Promise<string[]>;
}

export async function newReader(): Promise<Reader> {
  const detector = await ownDetector();
  let ours: Reader | undefined;
  let broken = detector === null;
  return {
    async read(image, patient) {
      if (!broken && detector) {
        try {
          const found = (await detector.detect(image)).map(({ rawValue }) => rawValue);
          if (found.length > 0 || !patient) return found;
        } catch {
          broken = true; // promised, and not there: the reader is a service of the system
        }
      }
      ours ??= workerReader();
      return ours.read(image, patient);
    },
    close: () => ours?.close(),
  };
}

async function ownDetector(): Promise<Detector | null> {
  const { BarcodeDetector } = globalThis as { BarcodeDetector?: Detectors };
  try {
    if (!BarcodeDetector || !(await BarcodeDetector.getSupportedFormats()).includes("qr_code")) return null;
    return new BarcodeDetector({ formats: ["qr_code"] });
  } catch {
    return null;
  }
}

function workerReader(): Reader {
  const worker = new Worker(new URL("./decoder.ts", import.meta.url), { type: "module", name: "decoder" });
  const waiting = new Map<number, { resolve: (texts: string[]) => void; reject: (why: unknown) => void }>();
  let last = 0;
  worker.onmessage = ({ data: { id, texts } }: MessageEvent<Seen>) => {
    waiting.get(id)?.resolve(texts);
    waiting.delete(id);
  };
  worker.onerror = (event) => {
    for (const { reject } of waiting.values()) reject(new Error(event.message));
    waiting.clear();
  };
  return {
    read: ({ width, height, data }, patient) =>
      new Promise((resolve, reject) => {
        const id = ++last;
        waiting.set(id, { resolve, reject });
        const look: Look = { id, image: { width, height, data }, patient };
        worker.postMessage(look, [data.buffer]);
      }),
    close: () => worker.terminate(),
  };
}
