// A drill begins: an attempt of its own, and the way to it.
import type { DrillDef } from "../core/api.ts";
import { startAttempt } from "../store/drills.ts";
import { getSetting } from "../store/settings.ts";
import { onceAtATime } from "../ui/onceatatime.ts";
import { go } from "../ui/route.ts";

export const LEARNER = "learner";

type Chosen = Pick<DrillDef, "demo" | "grade" | "name">;

export const begin = onceAtATime(async (drill: Chosen, seed: number, text: string = "") => {
  const learner = (await getSetting(LEARNER)) ?? "";
  const { id } = await startAttempt({ demo: text ? "" : drill.demo, text, seed, grade: drill.grade, learner }, drill.name);
  go({ at: "drill", attempt: id, view: "call" });
});
