// Drawing wires, one after another: touch where it begins, touch where it ends.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { thingAt } from "../panel/search.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Entry } from "./fields.tsx";
import { Pick } from "./pick.tsx";
import type { InHand } from "./use.ts";

interface Props {
  panel: string;
  opened: Opened;
  hand: InHand;
  /** Where the first wire begins, if that is said already. */
  from: string;
  done: () => void;
}

export function Wiring({ panel, opened, hand, from: begun, done }: Props) {
  const [from, setFrom] = useState(begun);
  const [no, setNo] = useState("");
  const block = useRef("");
  useEffect(() => {
    const at = from === "" ? null : thingAt(opened, from);
    if (from === "") document.getElementById(`block-${block.current}`)?.scrollIntoView({ block: "center" });
    else scrollTo(0, 0); // the other list begins at its top
    if (at) block.current = at.kind === "block" ? at.block.ref : "";
  }, [from]);
  const touch = (point: string): void => {
    if (from === "") return setFrom(point);
    if (from === point) return setFrom(""); // touched again: not there after all
    setFrom("");
    setNo("");
    void hand.act({ op: "wire", from, to: point, ...(no.trim() && { ref: no.trim() }) });
  };
  return (
    <Screen
      title={say("page.build-wire")}
      sub={opened.name}
      back={{ at: "build", panel }}
      leave={done}
      foot={
        <div class="foot-row">
          <button type="button" class="second" onClick={() => (from === "" ? hand.undo() : setFrom(""))}>
            <Icon name="undo" /> {say("page.undo")}
          </button>
          <button type="button" class="action" onClick={done}>
            <Icon name="works" /> {say("page.build-wired")}
          </button>
        </div>
      }
    >
      <div class="over wiring" role="status">
        <p class="lead-in">
          {from === "" ? say("page.build-touch-first") : say("page.build-touch-second", { from })}
        </p>
        {hand.made && from === "" && <p>{hand.made}</p>}
      </div>
      {hand.error !== undefined && <Trouble error={hand.error} />}
      <Pick opened={opened} from={from} touch={touch} />
      <Entry name={say("page.build-wire-no")} hint={say("page.build-counted-on")} value={no} set={setNo} />
    </Screen>
  );
}
