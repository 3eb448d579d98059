// What can be done with a wire that is drawn: an end goes elsewhere, something
// sits in it, it is not there, or more is known of it.
import { useState } from "preact/hooks";
import type { Opened, WireView } from "../core/api.ts";
import { lands } from "../panel/point.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { between, field } from "./edits.ts";
import { Written } from "./fields.tsx";
import { Guesses } from "./guesses.tsx";
import { Pick } from "./pick.tsx";
import type { Act } from "./use.ts";

interface Props {
  wire: WireView;
  opened: Opened;
  act: Act;
}

export type WireWork = "from" | "to" | "between";

/** The places where a wire ends otherwise, or what sits in it. */
export function WireWorking({ wire, opened, act, work }: Props & { work: WireWork }) {
  if (work === "between") {
    return (
      <Guesses
        name={say("page.build-what-between", { no: wire.no })}
        hint={say("page.build-word-hint")}
        take={(candidate) => void act(between(wire.no, candidate))}
      />
    );
  }
  const other = work === "from" ? wire.to : wire.from;
  return (
    <>
      <p class="lead-in">{say("page.build-ends-where", { no: wire.no, other })}</p>
      <Pick opened={opened} from={other} touch={(to) => void act({ op: "move-wire", ref: wire.no, end: work, to })} />
    </>
  );
}

interface ChoicesProps extends Omit<Props, "opened"> {
  /** The end that is meant; both where it is left out. */
  near?: string;
  choose: (work: WireWork) => void;
}

export function WireChoices({ wire, act, near, choose }: ChoicesProps) {
  const at = { no: wire.no, from: wire.from, to: wire.to };
  const works = (["from", "to", "between"] as const).filter((work) => work === "between" || !near || lands(wire[work], near));
  return (
    <>
      <ul class="choices">
        {works.map((work) => (
          <li key={work}>
            <button type="button" class="choice" onClick={() => choose(work)}>
              <span>{say(`page.build-end-${work}`, at)}</span>
              <Icon name="next" />
            </button>
          </li>
        ))}
      </ul>
      <button type="button" class="second apart" onClick={() => void act({ op: "remove", ref: wire.no })}>
        <Icon name="bin" /> {say("page.build-wire-gone", at)}
      </button>
    </>
  );
}

export function WireSheetBody({ wire, opened, act }: Props) {
  const [work, setWork] = useState<WireWork | null>(null);
  if (work) return <WireWorking wire={wire} opened={opened} act={act} work={work} />;
  return (
    <>
      <WireChoices wire={wire} act={act} choose={setWork} />
      <Written
        name={say("page.build-wire-no")}
        was={wire.no}
        write={(name) => void act({ op: "rename", ref: wire.no, name })}
      />
      {(["colour", "size", "length", "cable", "core"] as const).map((name) => (
        <Written
          key={name}
          name={say(`page.build-${name}`)}
          was={wire[name]}
          write={(text) => void act(field(wire.no, name, text))}
        />
      ))}
    </>
  );
}
