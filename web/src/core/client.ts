// The page's side of the core: one worker, started on first use, asked one
// thing at a time.
//
// The queue lives here and not in the worker, because a computing core hears
// nothing: a call that is aborted while it waits is never sent, and one that
// is aborted while it computes has its answer dropped. If such an abandoned
// call still holds the worker after `patience` milliseconds while others
// wait, the worker is killed and the next call starts a new one. What a worker
// knew goes with it; `generation` tells those who must tell the next one.
import type { Ask, Tell } from "./protocol.ts";

/** The part of Worker that is used; tests bring their own. */
export interface WorkerLike {
  postMessage(message: Ask, transfer: Transferable[]): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<Tell>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export class CoreError extends Error {
  readonly code: "version" | "broken";
  constructor(code: "version" | "broken", message: string) {
    super(message);
    this.name = "CoreError";
    this.code = code;
  }
}

interface Job {
  id: number;
  request: object;
  signal: AbortSignal | undefined;
  resolve: (response: unknown) => void;
  reject: (reason: unknown) => void;
}

export interface Options {
  spawn: () => WorkerLike;
  version: string;
  patience: number;
}

export class CoreClient {
  readonly #options: Options;
  #worker: WorkerLike | null = null;
  #ready = false;
  #refused: CoreError | null = null;
  #nextId = 1;
  #queue: Job[] = [];
  #current: Job | null = null;
  #impatience: ReturnType<typeof setTimeout> | undefined;
  #generation = 1;

  constructor(options: Options) {
    this.#options = options;
  }

  /**
   * Asks the core. Rejects with the signal's reason once it is aborted, and
   * with a CoreError when the core broke or is of another version. What the
   * response says, failures included, is for the caller to read.
   */
  call(request: object, signal?: AbortSignal): Promise<unknown> {
    return new Promise((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      const job: Job = { id: this.#nextId++, request, signal, resolve, reject };
      signal?.addEventListener("abort", () => this.#abandon(job), { once: true });
      this.#queue.push(job);
      this.#hurry();
      this.#pump();
    });
  }

  /** Has a worker get ready before the first question. */
  start(): void {
    if (!this.#worker && !this.#refused) this.#spawn();
  }

  /** Whether a worker is starting, computing or has questions waiting. */
  get busy(): boolean {
    return this.#queue.length > 0 || this.#current !== null || (this.#worker !== null && !this.#ready);
  }

  /** Counts the workers: state given to an earlier one is gone. */
  get generation(): number {
    return this.#generation;
  }

  /** The hard stop: what computes is lost, what waits is asked again. */
  kill(): void {
    const lost = this.#current;
    this.#drop();
    lost?.reject(lost.signal?.reason ?? new CoreError("broken", "stopped"));
    this.#pump();
  }

  #abandon(job: Job): void {
    job.reject(job.signal?.reason);
    this.#queue = this.#queue.filter((other) => other !== job);
    this.#hurry();
  }

  /** Starts the clock when an abandoned call keeps others waiting. */
  #hurry(): void {
    if (this.#impatience !== undefined) return;
    if (!this.#current?.signal?.aborted || this.#queue.length === 0) return;
    this.#impatience = setTimeout(() => this.kill(), this.#options.patience);
  }

  #drop(): void {
    clearTimeout(this.#impatience);
    this.#impatience = undefined;
    this.#worker?.terminate();
    this.#worker = null;
    this.#generation++;
    this.#ready = false;
    this.#current = null;
  }

  #pump(): void {
    if (this.#refused) return this.#failAll(this.#refused);
    if (this.#queue.length === 0 || this.#current) return;
    if (!this.#worker) return this.#spawn();
    if (!this.#ready) return;
    const job = this.#queue.shift();
    if (!job) return;
    this.#current = job;
    this.#send(job.id, job.request);
  }

  #send(id: number, request: object): void {
    const bytes = new TextEncoder().encode(JSON.stringify(request));
    this.#worker?.postMessage({ id, request: bytes }, [bytes.buffer]);
  }

  #spawn(): void {
    const worker = this.#options.spawn();
    this.#worker = worker;
    worker.onmessage = (event) => this.#heard(worker, event.data);
    worker.onerror = (event) => this.#heard(worker, { kind: "broken", id: null, why: event.message });
  }

  #heard(worker: WorkerLike, tell: Tell): void {
    if (worker !== this.#worker) return; // a killed worker's last words
    switch (tell.kind) {
      case "ready":
        if (tell.version !== this.#options.version) {
          this.#refused = new CoreError("version", `${this.#options.version} ${tell.version}`);
          this.#drop();
          return this.#pump();
        }
        this.#ready = true;
        return this.#pump();
      case "answer":
        return this.#answered(tell.id, tell.response);
      case "broken":
        return this.#broke(new CoreError("broken", tell.why));
    }
  }

  #answered(id: number, response: Uint8Array): void {
    const job = this.#current;
    if (!job || job.id !== id) return;
    clearTimeout(this.#impatience);
    this.#impatience = undefined;
    this.#current = null;
    // After an abort the promise is already settled and this does nothing.
    job.resolve(JSON.parse(new TextDecoder().decode(response)));
    this.#pump();
  }

  #broke(error: CoreError): void {
    const job = this.#current;
    this.#drop();
    if (job) {
      job.reject(error);
      return this.#pump();
    }
    // It broke while starting: another would break the same way.
    this.#failAll(error);
  }

  #failAll(error: CoreError): void {
    const waiting = this.#queue;
    this.#queue = [];
    for (const job of waiting) job.reject(error);
  }
}
