// Typed questions about drills. A drill is opened anew when the core that knew
// it was killed: all that was done in it is handed over with each question.
import { ask } from "./ask.ts";
import type { CoreClient } from "./client.ts";
import { workshop } from "./core.ts";
import type { Drill, DrillAct, DrillAuthored, DrillDebrief, DrillDef, DrillState, Progress } from "./api.ts";

/** Where a drill comes from: embedded in the core, or a file of this phone. */
export type DrillSource = { demo: string } | { name: string; text: string };

/** Faults the core solves before it lets a long job say how far it is. */
const BUDGET = 10;

export async function drills(signal?: AbortSignal): Promise<DrillDef[]> {
  return (await ask(workshop, { op: "drills" }, "drills", signal)).drills;
}

/** How hard a drill is, and the file to hand out. */
export function author(source: DrillSource, signal?: AbortSignal, progress?: (how: Progress) => void): Promise<DrillAuthored> {
  return ask(workshop, { op: "drill-author", ...source, budget: BUDGET }, "drill_authored", signal, progress);
}

export class DrillSession {
  readonly #source: DrillSource;
  readonly #seed: number;
  readonly #client: CoreClient;
  #opened: Promise<Drill> | null = null;
  #generation = 0;

  constructor(source: DrillSource, seed: number, client: CoreClient = workshop) {
    this.#source = source;
    this.#seed = seed;
    this.#client = client;
  }

  open(): Promise<Drill> {
    if (!this.#opened || this.#generation !== this.#client.generation) {
      this.#generation = this.#client.generation;
      const opening = ask(this.#client, { op: "drill-open", ...this.#source, seed: this.#seed }, "drill");
      this.#opened = opening;
      opening.catch(() => {
        if (this.#opened === opening) this.#opened = null;
      });
    }
    return this.#opened;
  }

  /** What is seen after all these acts, and what can be done then. */
  async act(acts: readonly DrillAct[], signal?: AbortSignal): Promise<DrillState> {
    const { session } = await this.open();
    return ask(this.#client, { op: "drill-act", session, acts: [...acts] }, "drill_state", signal);
  }

  async debrief(acts: readonly DrillAct[], signal?: AbortSignal, progress?: (how: Progress) => void): Promise<DrillDebrief> {
    const { session } = await this.open();
    const request = { op: "drill-debrief", session, acts: [...acts], budget: BUDGET };
    return ask(this.#client, request, "drill_debrief", signal, progress);
  }
}
