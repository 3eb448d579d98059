// What page and worker say to each other. The payloads are JSON texts as
// bytes, handed over and not copied.

/** Page to worker. */
export interface Ask {
  id: number;
  request: Uint8Array<ArrayBuffer>;
}

/** Worker to page. */
export type Tell =
  | { kind: "ready"; version: string }
  | { kind: "answer"; id: number; response: Uint8Array<ArrayBuffer> }
  /** The core threw; the worker is of no further use. */
  | { kind: "broken"; id: number | null; why: string };
