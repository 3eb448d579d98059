// The one core of this page.
import { CoreClient } from "./client.ts";

/** How long an abandoned computation may hold up others before it is killed. */
const PATIENCE_MS = 4000;

export const core = new CoreClient({
  version: __VERSION__,
  patience: PATIENCE_MS,
  spawn: () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "core" }),
});

/** How often it is asked whether the core rests. */
const REST_MS = 250;

/** Resolves when the core has nothing to do. */
export async function coreAtRest(): Promise<void> {
  do await new Promise((resolve) => setTimeout(resolve, REST_MS));
  while (core.busy);
}
