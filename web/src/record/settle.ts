// What was found otherwise is settled: it becomes the drawing, or it was put back
// and is forgotten. The drawing before stays among the panel's versions, where
// the job's record finds it and undoing takes it from.
import { edit } from "../core/ask.ts";
import { getPanel, savePanel, versionsOf } from "../store/panels.ts";
import type { Standing, Step } from "../store/step.ts";
import { say } from "../words.ts";

type How = Extract<Step, { kind: "settled" }>["how"];

/** Gives the version that the panel had before. */
export async function settle(panel: string, how: How): Promise<number> {
  const saved = await getPanel(panel);
  if (!saved) throw new Error(say("page.no-such-panel"));
  const count = foundIn(saved.text);
  const source = { name: saved.title, text: saved.text };
  const { document } = await edit(source, [how === "adopted" ? { op: "adopt-found" } : { op: "forget-found", count }]);
  const now = await savePanel(panel, saved.version, { title: saved.title, text: document });
  if (now.id !== panel) throw new Error(say("page.saved-beside"));
  return saved.version;
}

/** How many corrections a document has. */
function foundIn(text: string): number {
  const { found } = JSON.parse(text) as { found?: unknown };
  return Array.isArray(found) ? found.length : 0;
}

/** Takes back what a step did to the drawing, unless somebody has drawn on since. */
export async function unsettle(panel: string, step: Standing | undefined): Promise<void> {
  if (step?.kind !== "settled") return;
  const now = await getPanel(panel);
  const before = (await versionsOf(panel)).find(({ version }) => version === step.version);
  if (!now || !before || now.version !== step.version + 1) return;
  await savePanel(panel, now.version, { title: before.title, text: before.text });
}
