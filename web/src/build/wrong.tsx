// The drawing is wrong here: a terminal is tapped, then what is otherwise. It is
// kept as found, beside the drawing, and the job goes on with the panel as it is.
import { useState } from "preact/hooks";
import type { DraftEdit, Edited, Opened } from "../core/api.ts";
import { wiresAt } from "../panel/ends.ts";
import { thingAt } from "../panel/search.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Pick } from "./pick.tsx";
import type { Act } from "./use.ts";
import { WireChoices, WireWorking, type WireWork } from "./wire.tsx";

interface Props {
  point: string;
  opened: Opened;
  correct: (step: DraftEdit[]) => Promise<Edited>;
  takeBack: () => Promise<void>;
  close: () => void;
}

type Work = { wire: string; work: WireWork } | "undrawn" | null;

export function WrongSheet({ point, opened: now, correct, takeBack, close }: Props) {
  const [opened] = useState(now); // as it was when the terminal was tapped
  const [work, setWork] = useState<Work>(null);
  const [done, setDone] = useState<Edited | null>(null);
  const [error, setError] = useState<unknown>();
  const act: Act = async (...step) => {
    try {
      setDone(await correct(step));
      setError(undefined);
      return true;
    } catch (why) {
      setError(why);
      return false;
    }
  };
  const back = async (): Promise<void> => {
    try {
      await takeBack();
      close();
    } catch (why) {
      setError(why);
    }
  };
  const ends = new Set(wiresAt(opened, point).map(({ no }) => no));
  const wires = opened.wires.filter(({ no }) => ends.has(no));
  const at = thingAt(opened, point);
  const chosen = work !== null && work !== "undrawn" ? opened.wires.find(({ no }) => no === work.wire) : undefined;
  return (
    <Dialog title={say("page.wrong-here", { point })} sub={say("page.wrong-about")} close={close}>
      {error !== undefined && <Trouble error={error} />}
      {done ? (
        <Noted edited={done} back={() => void back()} close={close} />
      ) : work === "undrawn" ? (
        <>
          <p class="lead-in">{say("page.build-touch-second", { from: point })}</p>
          <Pick opened={opened} from={point} touch={(to) => void act({ op: "wire", from: point, to })} />
        </>
      ) : chosen && work ? (
        <WireWorking wire={chosen} opened={opened} act={act} work={work.work} />
      ) : (
        <>
          {wires.map((wire) => (
            <WireChoices
              key={wire.no}
              wire={wire}
              near={point}
              act={act}
              choose={(how) => setWork({ wire: wire.no, work: how })}
            />
          ))}
          <ul class="choices">
            <li>
              <button type="button" class="choice" onClick={() => setWork("undrawn")}>
                <span>{say("page.wrong-undrawn")}</span>
                <Icon name="wire" />
              </button>
            </li>
          </ul>
          {at?.kind === "block" && (
            <button
              type="button"
              class="second apart"
              onClick={() => void act({ op: "remove", ref: at.block.ref })}
            >
              <Icon name="bin" /> {say("page.wrong-no-terminal", { point: at.block.ref })}
            </button>
          )}
        </>
      )}
    </Dialog>
  );
}

function Noted({ edited, back, close }: { edited: Edited; back: () => void; close: () => void }) {
  return (
    <>
      <div class="box" role="status" data-noted>
        <Icon name="works" />
        <div>
          <p class="strong">{say("page.wrong-noted")}</p>
          <ul class="plain">
            {edited.made.map(({ code, text }, index) => (
              <li key={`${index} ${code}`}>{text}</li>
            ))}
          </ul>
        </div>
      </div>
      {edited.errors > 0 && (
        <div class="box box-warn" role="alert">
          <Icon name="caution" />
          <p>{say("page.wrong-unsolved", { n: edited.errors })}</p>
        </div>
      )}
      <div class="foot-row">
        <button type="button" class="second" onClick={back}>
          <Icon name="undo" /> {say("page.undo")}
        </button>
        <button type="button" class="action" onClick={close}>
          {say("page.wrong-go-on")} <Icon name="next" />
        </button>
      </div>
    </>
  );
}
