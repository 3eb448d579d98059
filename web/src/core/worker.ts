// The worker that runs a module of the Go core, by its own name: "core" answers
// at the open panel, "workshop" has drawing, sharing and drills too. One request at a time: a computing core
// cannot hear anything until it has answered, so the page queues and, if it
// must, kills.
import "../../gen/wasm_exec.js";
import coreUrl from "../../gen/core.wasm?url";
import workshopUrl from "../../gen/workshop.wasm?url";
import type { Ask, Tell } from "./protocol.ts";

interface GoRuntime {
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}

// What wasm_exec.js and the core add to the worker's globals.
const scope = self as unknown as {
  name: string;
  Go: new () => GoRuntime;
  halfsplitReady: () => void;
  halfsplitVersion: string;
  halfsplitCall: (request: Uint8Array) => Uint8Array<ArrayBuffer> | null;
  halfsplitRest: () => void;
  postMessage(message: Tell, transfer?: Transferable[]): void;
  onmessage: ((event: MessageEvent<Ask>) => void) | null;
};

const say = (message: Tell, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

function text(error: unknown): string {
  return error instanceof Error ? `${error.name}: ${error.message}` : String(error);
}

/**
 * How long portions of one answer follow each other before the page hears how far it is and may
 * change its mind, in milliseconds. Portions are short, and to ask for each takes as long again.
 */
const ROW = 25;

/** An answer that only says how far it is; the last one is longer or says something else. */
const unfinished = (response: Uint8Array): boolean =>
  response.length < 200 && "progress" in (JSON.parse(new TextDecoder().decode(response)) as object);

function answer({ id, request }: Ask): void {
  try {
    const until = performance.now() + ROW;
    for (;;) {
      const response = scope.halfsplitCall(request);
      if (!response) throw new Error("the core was not given bytes");
      const last = !unfinished(response) || performance.now() > until;
      if (last) say({ kind: "answer", id, response }, [response.buffer]);
      scope.halfsplitRest();
      if (last) return;
    }
  } catch (error) {
    // A RangeError (stack overflow) leaves the Go run time half unwound.
    say({ kind: "broken", id, why: text(error) });
  }
}

async function start(): Promise<void> {
  const go = new scope.Go();
  const ready = new Promise<void>((resolve) => (scope.halfsplitReady = resolve));
  const { instance } = await WebAssembly.instantiateStreaming(fetch(scope.name === "workshop" ? workshopUrl : coreUrl), go.importObject);
  const ended = go.run(instance).then(() => {
    throw new Error("the core ended");
  });
  await Promise.race([ready, ended]);
  ended.catch((error: unknown) => say({ kind: "broken", id: null, why: text(error) }));
  scope.onmessage = (event) => answer(event.data);
  say({ kind: "ready", version: scope.halfsplitVersion });
}

start().catch((error: unknown) => say({ kind: "broken", id: null, why: text(error) }));
