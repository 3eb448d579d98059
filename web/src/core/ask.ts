// Typed questions to the core. An answer of the wrong shape, a refusal and a
// broken core all arrive as one kind of failure with a sentence and a hint.
import type { CoreClient } from "./client.ts";
import { core, workshop } from "./core.ts";
import type {
  Candidate,
  Conditions,
  DraftEdit,
  DrillMarks,
  DrillShort,
  Edited,
  Error as Refusal,
  Faults,
  Find,
  Hello,
  Isolate,
  Meter,
  MyMeter,
  Opened,
  Predict,
  Progress,
  Request,
  Response,
  State,
  WhatIf,
} from "./api.ts";

/** What the core refused, in its own words. */
export class Refused extends Error {
  readonly refusal: Refusal;
  constructor(refusal: Refusal) {
    super(refusal.text);
    this.name = "Refused";
    this.refusal = refusal;
  }
}

type Answers = Omit<Response, "error" | "progress">;

export async function ask<K extends keyof Answers>(
  client: CoreClient,
  request: Request,
  field: K,
  signal?: AbortSignal,
  progress?: (how: Progress) => void,
): Promise<NonNullable<Answers[K]>> {
  for (;;) {
    const response = (await client.call(request, signal)) as Response;
    if (response.error) throw new Refused(response.error);
    if (response.progress) {
      progress?.(response.progress);
      continue;
    }
    const answer = response[field];
    if (answer === undefined || answer === null) throw new Error(`the core answered ${request.op} without ${field}`);
    return answer as NonNullable<Answers[K]>;
  }
}

export function hello(signal?: AbortSignal): Promise<Hello> {
  return ask(core, { op: "version" }, "hello", signal);
}

/** The whole of a meter, of which only what is uncommon is given. */
export function mymeter(own: Readonly<Record<string, number>>, signal?: AbortSignal): Promise<MyMeter> {
  return ask(core, { op: "mymeter", my_meter: { ...own } }, "my_meter", signal);
}

/** A panel after some edits of it; of none, where it stands. The session before is given up. */
export function edit(source: Source | { text: string }, edits: DraftEdit[], session = 0): Promise<Edited> {
  return ask(workshop, { op: "edit", ...source, edits, session }, "edited");
}

/** What a person may mean by a word, a tag or a designation; the blocks of a strip for none. */
export async function guess(word: string, signal?: AbortSignal): Promise<Candidate[]> {
  return (await ask(workshop, { op: "guess", word }, "guesses", signal)).guesses;
}

/** What of a panel can stand how, and how it stands in each state of the plant. */
export function conditions(text: string, signal?: AbortSignal): Promise<Conditions> {
  return ask(workshop, { op: "conditions", text }, "conditions", signal);
}

/** What is measured, where, with what, on a panel in which state. */
export interface MeterQuestion {
  at: string;
  faults: string[];
  mode: string;
  red: string;
  black: string;
  load: boolean;
  my_meter: Readonly<Record<string, number>>;
}

/** Where a panel comes from: embedded in the core, or kept on this phone. */
export type Source = { demo: string } | { name: string; text: string };

/** Faults the core solves before it lets a long job say how far it is. */
const BUDGET = 30;

/**
 * A panel as the core holds it. The core may have been killed since the last
 * question; then the panel is opened again before the next one.
 */
export class PanelSession {
  readonly #source: Source;
  readonly #client: CoreClient;
  #opened: Promise<Opened> | null = null;
  #faults: Promise<Faults> | null = null;
  #generation = 0;

  constructor(source: Source, client: CoreClient = core) {
    this.#source = source;
    this.#client = client;
  }

  open(): Promise<Opened> {
    if (!this.#opened || this.#generation !== this.#client.generation) {
      this.#generation = this.#client.generation;
      const opening = ask(this.#client, { op: "open", ...this.#source }, "opened");
      this.#opened = opening;
      opening.catch(() => {
        if (this.#opened === opening) this.#opened = null;
      });
    }
    return this.#opened;
  }

  /** Every fault the model knows; the drawing does not change, so asked once. */
  faults(): Promise<Faults> {
    this.#faults ??= this.#ask({ op: "faults" }, "faults");
    this.#faults.catch(() => (this.#faults = null));
    return this.#faults;
  }

  state(at: string, faults: string[], signal?: AbortSignal): Promise<State> {
    return this.#ask({ op: "state", at, faults }, "state", signal);
  }

  whatif(at: string, faults: string[], signal?: AbortSignal): Promise<WhatIf> {
    return this.#ask({ op: "whatif", at, faults }, "whatif", signal);
  }

  meter(question: MeterQuestion, signal?: AbortSignal): Promise<Meter> {
    return this.#ask({ op: "meter", ...question, my_meter: { ...question.my_meter } }, "meter", signal);
  }

  /** What the same measurement shows under each fault of the named things. */
  predict(question: MeterQuestion & { each: string[] }, signal?: AbortSignal): Promise<Predict> {
    return this.#ask({ op: "predict", ...question, my_meter: { ...question.my_meter } }, "predict", signal);
  }

  /** A short exercise; with marks, graded. Asked of the workshop only. */
  short(form: string, seed: number, marks?: DrillMarks, signal?: AbortSignal): Promise<DrillShort> {
    return this.#ask({ op: "drill-short", form, seed, ...(marks && { marks }) }, "drill_short", signal);
  }

  isolate(at: string, refs: readonly string[], signal?: AbortSignal): Promise<Isolate> {
    return this.#ask({ op: "isolate", at, refs: [...refs] }, "isolate", signal);
  }

  find(
    at: string,
    observations: NonNullable<Request["observations"]>,
    history: NonNullable<Request["history"]>,
    signal?: AbortSignal,
    progress?: (how: Progress) => void,
  ): Promise<Find> {
    return this.#ask({ op: "find", at, observations, history, budget: BUDGET }, "find", signal, progress);
  }

  async #ask<K extends keyof Answers>(
    request: Request,
    field: K,
    signal?: AbortSignal,
    progress?: (how: Progress) => void,
  ): Promise<NonNullable<Answers[K]>> {
    for (;;) {
      const { session } = await this.open();
      const generation = this.#client.generation;
      signal?.throwIfAborted();
      try {
        return await ask(this.#client, { ...request, session }, field, signal, progress);
      } catch (error) {
        // The session died with a worker that was killed under this question.
        if (!(error instanceof Refused) || this.#client.generation === generation) throw error;
      }
    }
  }
}
