// The panels that are open: one session each, for as long as the page lives.
import { PanelSession } from "../core/ask.ts";
import type { Opened } from "../core/api.ts";
import { ofPanel, useKept } from "../keep/kept.ts";
import { onChange } from "../store/changes.ts";
import { getPanel } from "../store/panels.ts";
import type { Answer } from "../ui/answer.ts";
import { say } from "../words.ts";

// Kept from the moment it is asked for: a drawing that is saved while the one before
// is still being read takes that one's place.
const sessions = new Map<string, Promise<PanelSession>>();

// A drawing that was saved anew, here or in another tab, is read anew.
onChange((change) => {
  if (change.kind === "panel") sessions.delete(change.id);
  else if (change.kind === "all") for (const id of sessions.keys()) if (!id.startsWith("demo:")) sessions.delete(id);
});

/** "demo:NAME" is embedded in the core, anything else is kept on this phone. */
export function sessionOf(id: string): Promise<PanelSession> {
  const known = sessions.get(id);
  if (known) return known;
  const session = sourceOf(id).then((source) => new PanelSession(source));
  sessions.set(id, session);
  session.catch(() => {
    if (sessions.get(id) === session) sessions.delete(id);
  });
  return session;
}

export async function sourceOf(id: string): Promise<ConstructorParameters<typeof PanelSession>[0]> {
  const demo = /^demo:(.+)$/.exec(id)?.[1];
  if (demo) return { demo };
  const saved = await getPanel(id);
  if (!saved) throw new Error(say("page.no-such-panel"));
  return { name: saved.title, text: saved.text };
}

export interface OpenPanel {
  session: PanelSession;
  opened: Opened;
}

export function usePanel(id: string): Answer<OpenPanel> {
  const ask = async (): Promise<OpenPanel> => {
    const session = await sessionOf(id);
    return { session, opened: await session.open() };
  };
  return useKept(ask, [id], ofPanel(id));
}
