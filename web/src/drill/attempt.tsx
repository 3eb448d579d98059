// One attempt: it is opened from the disk, every act is written down, then done.
import { useMemo, useState } from "preact/hooks";
import type { Drill, DrillAct, DrillState } from "../core/api.ts";
import { DrillSession } from "../core/drills.ts";
import { pulse } from "../manners/pulse.ts";
import type { Attempt } from "../store/attempt.ts";
import { changeAttempt, getAttempt, type SavedAttempt } from "../store/drills.ts";
import { useAnswer } from "../ui/answer.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { DebriefScreen } from "./debrief.tsx";
import { PlayScreen, type View } from "./play.tsx";

export interface Playing {
  saved: SavedAttempt;
  attempt: Attempt;
  session: DrillSession;
  drill: Drill;
  state: DrillState;
  busy: boolean;
  /** Why the last act could not be answered; it is written down all the same. */
  error: unknown;
  /** Writes an act down, then does it; one that is refused is taken back. */
  act: (act: DrillAct) => Promise<void>;
  keep: (change: (attempt: Attempt) => Attempt) => Promise<void>;
}

export function AttemptScreen({ attempt, view }: { attempt: string; view: View }) {
  const found = useAnswer(async () => {
    const saved = await getAttempt(attempt);
    if (!saved) throw new Error(say("page.no-such-attempt"));
    const { demo, text, seed } = saved.attempt;
    const session = new DrillSession(demo ? { demo } : { name: saved.title, text }, seed);
    const drill = await session.open();
    return { saved, session, drill, state: await session.act(saved.attempt.acts) };
  }, [attempt]);
  if (!found.value) {
    return (
      <Screen title={say("page.drill")} back={{ at: "drills" }}>
        {found.error !== undefined ? <Trouble error={found.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
      </Screen>
    );
  }
  return <Opened key={attempt} {...found.value} view={view} />;
}

interface OpenedProps {
  saved: SavedAttempt;
  session: DrillSession;
  drill: Drill;
  state: DrillState;
  view: View;
}

function Opened({ saved, session, drill, state: first, view }: OpenedProps) {
  const [attempt, setAttempt] = useState(saved.attempt);
  const [state, setState] = useState(first);
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>();
  const began = useMemo(() => Date.now() - 1000 * Math.max(0, ...saved.attempt.acts.map(({ seconds = 0 }) => seconds)), [saved]);

  const keep = async (change: (attempt: Attempt) => Attempt): Promise<void> => {
    setAttempt(await changeAttempt(saved.id, change));
  };
  const act = async (given: DrillAct): Promise<void> => {
    setBusy(true);
    setError(undefined);
    try {
      const timed = { ...given, seconds: Math.round((Date.now() - began) / 1000) };
      const done = await changeAttempt(saved.id, (old) => ({ ...old, acts: [...old.acts, timed] }));
      setAttempt(done);
      pulse("stored");
      const after = await session.act(done.acts);
      if (after.refused) await keep((old) => ({ ...old, acts: old.acts.slice(0, -1) }));
      setState(after);
    } catch (why) {
      setError(why);
    } finally {
      setBusy(false);
    }
  };
  const playing: Playing = { saved, attempt, session, drill, state, busy, error, act, keep };
  return state.ended !== "" ? <DebriefScreen playing={playing} /> : <PlayScreen playing={playing} view={view} />;
}
