// The panels that are open: one session each, for as long as the page lives.
import { PanelSession } from "../core/ask.ts";
import type { Opened } from "../core/api.ts";
import { getPanel } from "../store/jobs.ts";
import { useAnswer, type Answer } from "../ui/answer.ts";
import { say } from "../words.ts";

const sessions = new Map<string, PanelSession>();

/** "demo:NAME" is embedded in the core, anything else is kept on this phone. */
export async function sessionOf(id: string): Promise<PanelSession> {
  let session = sessions.get(id);
  if (!session) {
    session = new PanelSession(await sourceOf(id));
    sessions.set(id, session);
  }
  return session;
}

async function sourceOf(id: string): Promise<ConstructorParameters<typeof PanelSession>[0]> {
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
  return useAnswer(async () => {
    const session = await sessionOf(id);
    return { session, opened: await session.open() };
  }, [id]);
}
