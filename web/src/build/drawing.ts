// A panel that is being drawn: every tap is a step of edits, the core says what
// comes of it, and the phone keeps both, the document and the steps. Undoing is
// leaving the last step out, as often as there are steps.
import type { DraftEdit, Edited } from "../core/api.ts";
import { edit } from "../core/ask.ts";
import { addPanel, getPanel, savePanel } from "../store/panels.ts";
import type { Drawn, SavedPanel } from "../store/schema.ts";
import { say } from "../words.ts";

export interface Drawing {
  id: string;
  /** Null while a demo panel is only looked at: the first step makes a copy. */
  saved: SavedPanel | null;
  drawn: Drawn;
  edited: Edited;
}

/** Edits the core takes in one call. */
const AT_ONCE = 400;

/** A panel with nothing on it but its name. */
export async function newPanel(name: string): Promise<SavedPanel> {
  const { document } = await edit({ text: "" }, [{ op: "name", name }]);
  return addPanel({ title: name, text: document, drawn: { base: document, steps: [] } });
}

export async function openDrawing(id: string): Promise<Drawing> {
  const demo = /^demo:(.+)$/.exec(id)?.[1];
  if (demo) {
    const edited = await edit({ demo }, []);
    return { id, saved: null, drawn: { base: edited.document, steps: [] }, edited };
  }
  const saved = await getPanel(id);
  if (!saved) throw new Error(say("page.no-such-panel"));
  const edited = await edit({ name: saved.title, text: saved.text }, []);
  return { id, saved, drawn: saved.drawn ?? { base: saved.text, steps: [] }, edited };
}

/** What a step would come to; nothing is kept. */
export const tryStep = ({ edited }: Drawing, step: DraftEdit[]): Promise<Edited> =>
  edit({ text: edited.document }, step, edited.opened?.session);

/** Carries a step out and keeps it. Errors: Refused, with nothing changed. */
export async function takeStep(drawing: Drawing, step: DraftEdit[]): Promise<Drawing> {
  const edited = await tryStep(drawing, step);
  return keep(drawing, { ...drawing.drawn, steps: [...drawing.drawn.steps, step] }, edited);
}

/** Takes the last step back. */
export async function takeBack(drawing: Drawing): Promise<Drawing> {
  const drawn = { ...drawing.drawn, steps: drawing.drawn.steps.slice(0, -1) };
  return keep(drawing, drawn, await replay(drawn));
}

async function replay({ base, steps }: Drawn): Promise<Edited> {
  const edits = steps.flat();
  let edited = await edit({ text: base }, edits.slice(0, AT_ONCE));
  for (let at = AT_ONCE; at < edits.length; at += AT_ONCE) {
    edited = await edit({ text: edited.document }, edits.slice(at, at + AT_ONCE), edited.opened?.session);
  }
  return edited;
}

async function keep({ saved, edited: before }: Drawing, drawn: Drawn, edited: Edited): Promise<Drawing> {
  const title = edited.opened?.name || saved?.title || before.opened?.name || say("page.panel");
  const kept = { title, text: edited.document, drawn };
  const now = saved ? await savePanel(saved.id, saved.version, kept) : await addPanel(kept);
  return { id: now.id, saved: now, drawn, edited };
}
