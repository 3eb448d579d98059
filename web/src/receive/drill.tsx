// A drill that came in: it is begun like one that was here. Copies of it are never
// brought together: each attempt keeps the sealed text it was begun with.
import { useState } from "preact/hooks";
import { DrillSession } from "../core/drills.ts";
import { begin } from "../drill/begin.ts";
import { useKept } from "../keep/kept.ts";
import { dropArrival } from "../store/arrivals.ts";
import { attempts } from "../store/drills.ts";
import { useAnswer } from "../ui/answer.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Frame, type Deciding } from "./screen.tsx";

export function DrillArrived(arrived: Deciding) {
  const { arrival } = arrived;
  const [error, setError] = useState<unknown>();
  // The core reads it before it is begun.
  const drill = useAnswer(() => new DrillSession({ name: arrival.name, text: arrival.text }, 0).open(), [arrival.text]);
  const start = async (): Promise<void> => {
    if (!drill.value) return;
    try {
      const { name, grade } = drill.value;
      await begin({ demo: "", grade, name }, 0, arrival.text);
      await dropArrival(arrival.id);
    } catch (why) {
      setError(why);
    }
  };
  return (
    <Frame
      {...arrived}
      foot={
        drill.value && (
          <button type="button" class="action" onClick={() => void start()}>
            <Icon name="next" /> {say("page.received-begin")}
          </button>
        )
      }
    >
      {drill.error !== undefined && <Trouble error={drill.error} />}
      {error !== undefined && <Trouble error={error} />}
      <Begun name={arrival.title} text={arrival.text} />
      {drill.busy && <p class="wait">{say("page.starting")}</p>}
    </Frame>
  );
}

/** Whether it was begun here before: this very one, or one of its name. */
function Begun({ name, text }: { name: string; text: string }) {
  const mine = useKept(attempts, []).value ?? [];
  const same = mine.find(({ attempt }) => attempt.text === text);
  const other = mine.find(({ title }) => title === name);
  const one = same ?? other;
  if (!one) return null;
  const then = when.format(new Date(one.started));
  return (
    <div class="box" data-begun={same ? "same" : "other"}>
      <Icon name="list" />
      <div>
        <p class="strong">{say(same ? "page.drill-begun" : "page.drill-of-that-name", { when: then })}</p>
        <a class="second" href={address({ at: "drill", attempt: one.id, view: "call" })}>
          {say("page.open-attempt")}
        </a>
      </div>
    </div>
  );
}
