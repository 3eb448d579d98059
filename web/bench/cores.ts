// The page's own worker in Chromium, asked without the page around it.
import { readdir } from "node:fs/promises";
import type { Page } from "playwright-core";
import type { Request, Response } from "../src/core/api.ts";

export interface Timed {
  /** From the first question to the last answer. */
  ms: number;
  /** The longest the core was silent: until progress, or the answer. */
  longest: number;
  /** Bytes of WebAssembly memory afterwards; it never shrinks. */
  memory: number;
  /** Bytes of the answer. */
  bytes: number;
  /** How far it came, when time was up. */
  progress: { done: number; total: number } | null;
  session: number;
  /** What a search asks for. */
  next: NonNullable<Response["find"]>["next"] | null;
  error: string;
}

/** What the page under test keeps for us. */
interface Kept {
  core?: Worker;
  ask?: (text: string, seconds: number) => Promise<Timed>;
}

export class Cores {
  readonly #page: Page;
  readonly #url: string;

  constructor(page: Page, url: string) {
    this.#page = page;
    this.#url = url;
  }

  /** A new worker on an empty page; the one before is ended. */
  async start(): Promise<{ ms: number }> {
    const assets = await readdir(new URL("../dist/assets/", import.meta.url));
    const worker = assets.find((name) => /^worker-.*\.js$/.test(name));
    if (!worker) throw new Error('no worker was built: "make build"');
    await this.#page.goto(`${this.#url}icon.svg`);
    const ms = await this.#page.evaluate(async (url) => {
      // The worker as built, with a hand on its memory.
      const source = `
        const real = WebAssembly.instantiateStreaming;
        let memory = null;
        WebAssembly.instantiateStreaming = async (...given) => {
          const made = await real.apply(WebAssembly, given);
          memory = made.instance.exports.mem;
          return made;
        };
        self.addEventListener("message", (event) => {
          if (event.data !== "memory") return;
          event.stopImmediatePropagation();
          self.postMessage({ kind: "memory", bytes: memory.buffer.byteLength });
        });
        import(${JSON.stringify(url)}).catch((why) => self.postMessage({ kind: "broken", why: String(why) }));`;
      const kept = window as unknown as Kept;
      kept.core?.terminate();
      const began = performance.now();
      const core = new Worker(URL.createObjectURL(new Blob([source], { type: "text/javascript" })), { type: "module" });
      kept.core = core;
      const next = <T>(): Promise<T> =>
        new Promise((resolve, reject) => {
          core.onmessage = (event: MessageEvent<T>) => resolve(event.data);
          core.onerror = (event) => reject(new Error(event.message));
        });
      const ready = await next<{ kind: string; why?: string }>();
      if (ready.kind !== "ready") throw new Error(ready.why);
      const ms = performance.now() - began;
      kept.ask = async (text, seconds) => {
        const told = { ms: 0, longest: 0, memory: 0, bytes: 0, progress: null, session: 0, next: null, error: "" } as Timed;
        const began = performance.now();
        for (;;) {
          const asked = performance.now();
          const request = new TextEncoder().encode(text);
          const answer = next<{ kind: string; response: Uint8Array; why?: string }>();
          core.postMessage({ id: 1, request }, [request.buffer]);
          const { kind, response, why } = await answer;
          const now = performance.now();
          told.longest = Math.max(told.longest, now - asked);
          told.ms = now - began;
          if (kind !== "answer") {
            told.error = why ?? kind;
            return told;
          }
          told.bytes = response.byteLength;
          const { error, progress, opened, find } = JSON.parse(new TextDecoder().decode(response)) as Response;
          told.progress = progress ?? null;
          if (progress && told.ms < seconds * 1000) continue;
          told.error = error?.text ?? "";
          told.session = opened?.session ?? 0;
          told.next = find?.next ?? null;
          break;
        }
        const memory = next<{ bytes: number }>();
        core.postMessage("memory");
        told.memory = (await memory).bytes;
        return told;
      };
      return ms;
    }, `${this.#url}assets/${worker}`);
    return { ms };
  }

  ask(request: Request, seconds: number): Promise<Timed> {
    return this.#page.evaluate(([text, limit]) => (window as unknown as Required<Kept>).ask(text, limit), [
      JSON.stringify(request),
      seconds,
    ] as const);
  }
}
