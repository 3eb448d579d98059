// A drill that came in: it is begun like one that was here.
import { useState } from "preact/hooks";
import { DrillSession } from "../core/drills.ts";
import { begin } from "../drill/begin.ts";
import { dropArrival } from "../store/arrivals.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
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
      {drill.busy && <p class="wait">{say("page.starting")}</p>}
    </Frame>
  );
}
