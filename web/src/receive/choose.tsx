// Where the phone does not know which panel it is a copy of, or takes it for the
// wrong one, a person says so.
import { useState } from "preact/hooks";
import { addedPanels } from "../store/panels.ts";
import { useAnswer } from "../ui/answer.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Copied } from "./copies.ts";

interface Props {
  now: string | undefined;
  /** Others that it is a copy of just as well. */
  others: readonly Copied[];
  choose: (panel: string) => void;
}

export function Choose({ now, others, choose }: Props) {
  const [open, setOpen] = useState(false);
  const panels = useAnswer(addedPanels, []).value?.filter(({ id }) => id !== now) ?? [];
  if (panels.length === 0) return null;
  return (
    <section class="stack apart">
      {others.length > 0 && <p>{say("page.other-copies", { titles: others.map(({ panel }) => panel.title).join("; ") })}</p>}
      <button type="button" class="second" onClick={() => setOpen(true)}>
        <Icon name="list" /> {say("page.compare-with")}
      </button>
      {open && (
        <Dialog title={say("page.compare-with")} close={() => setOpen(false)}>
          <ul class="choices">
            {panels.map(({ id, title }) => (
              <li key={id}>
                <button
                  type="button"
                  class="choice"
                  onClick={() => {
                    setOpen(false);
                    choose(id);
                  }}
                >
                  <span>{title}</span>
                  <Icon name="next" />
                </button>
              </li>
            ))}
          </ul>
        </Dialog>
      )}
    </section>
  );
}
