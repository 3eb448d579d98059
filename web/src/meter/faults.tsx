// What the same two probes would show under each fault of the things they
// touch: those that can be told apart here come first.
import { useState } from "preact/hooks";
import type { Opened, Prediction } from "../core/api.ts";
import type { MeterQuestion, PanelSession } from "../core/ask.ts";
import { keyOf, search } from "../panel/search.ts";
import { SearchField } from "../panel/searchfield.tsx";
import { useAnswer } from "../ui/answer.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { thingsAround } from "./around.ts";

interface Props {
  session: PanelSession;
  opened: Opened;
  asked: MeterQuestion;
  /** Puts the panel into that fault, to measure on. */
  choose: (fault: string) => void;
  close: () => void;
}

export function FaultsSheet({ session, opened, asked, choose, close }: Props) {
  const [typed, setTyped] = useState("");
  const wanted = typed.trim() === "" ? thingsAround(opened, [asked.red, asked.black]) : search(opened, typed).map(keyOf);
  const each = wanted.join(" ");
  const answer = useAnswer(
    async (signal) => (wanted.length > 0 ? session.predict({ ...asked, each: wanted }, signal) : null),
    [session, each],
  );
  const rows = answer.value?.rows ?? [];
  return (
    <Dialog title={say("page.under-faults")} sub={say("page.under-faults-note")} close={close}>
      <SearchField name={say("page.under-faults-of")} typed={typed} type={setTyped} />
      {answer.error !== undefined && <Trouble error={answer.error} />}
      {answer.busy && <p class="wait">{say("page.solving")}</p>}
      {answer.value && (
        <p class="fact">
          <span>{say("page.without-fault")}</span> <b class="figure">{shownOf(answer.value.healthy)}</b>
        </p>
      )}
      <Rows title={say("page.shows-other")} rows={rows.filter(({ differs }) => differs)} choose={choose} />
      <Rows title={say("page.shows-same")} rows={rows.filter(({ differs }) => !differs)} choose={choose} />
    </Dialog>
  );
}

const shownOf = ({ refused, shown }: Prediction): string => (refused ? say("page.not-measured") : shown);

function Rows({ title, rows, choose }: { title: string; rows: Prediction[]; choose: (fault: string) => void }) {
  if (rows.length === 0) return null;
  return (
    <section>
      <h3>{title}</h3>
      <ul class="choices">
        {rows.map((row) => (
          <li key={row.fault}>
            <button type="button" class="choice" onClick={() => choose(row.fault)}>
              <span>{row.name}</span>
              <b class="figure">{shownOf(row)}</b>
              <Icon name="next" />
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
