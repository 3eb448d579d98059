// What was done so far, and what came of the last of it.
import type { DrillEntry } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import type { Playing } from "./attempt.tsx";

export function Happened({ playing: { state, error } }: { playing: Playing }) {
  const last = state.log.at(-1);
  if (error !== undefined) return <Trouble error={error} />;
  if (state.refused) {
    return (
      <div class="box box-warn" role="status">
        <Icon name="caution" />
        <div>
          <p>{state.refused.text}</p>
          {state.refused.hint && <p>{state.refused.hint}</p>}
        </div>
      </div>
    );
  }
  if (!last) return null;
  return (
    <div class={last.gates.length > 0 ? "box box-warn happened" : "box happened"} role="status">
      <Entry entry={last} />
    </div>
  );
}

function Entry({ entry }: { entry: DrillEntry }) {
  return (
    <div>
      <p class="did">
        <span>{entry.text}</span>
        {entry.reading && <b class="figure">{entry.reading.shown}</b>}
      </p>
      {entry.seen.map(({ text }) => (
        <p key={text}>{text}</p>
      ))}
    </div>
  );
}

export function LogSheet({ playing: { state }, close }: { playing: Playing; close: () => void }) {
  return (
    <Dialog title={say("page.steps")} close={close}>
      <ol class="steps">
        {state.log.map((entry, index) => (
          <li key={index}>
            <Entry entry={entry} />
          </li>
        ))}
      </ol>
    </Dialog>
  );
}
