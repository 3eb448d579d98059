// The core of this page, in two modules.
import { CoreClient } from "./client.ts";

/** How long an abandoned computation may hold up others before it is killed. */
const PATIENCE_MS = 4000;

const client = (spawn: () => Worker): CoreClient =>
  new CoreClient({ version: __VERSION__, patience: PATIENCE_MS, spawn });

/** Answers at the open panel. */
export const core = client(() => new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "core" }));

/** Drawing, records, sharing, drills: a module of its own, started on first use. */
export const workshop = client(
  () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "workshop" }),
);

/** How often it is asked whether the core rests. */
const REST_MS = 250;

/** Resolves when the core has nothing to do. */
export async function coreAtRest(): Promise<void> {
  do await new Promise((resolve) => setTimeout(resolve, REST_MS));
  while (core.busy);
}
