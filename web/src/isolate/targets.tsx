// What hands are to go to: chosen by name before anything is opened.
import { useState } from "preact/hooks";
import { ConditionChoice, useCondition } from "../panel/condition.tsx";
import { keyOf, search } from "../panel/search.ts";
import { SearchField } from "../panel/searchfield.tsx";
import { ThingList } from "../panel/thinglist.tsx";
import { usePanel, type OpenPanel } from "../panel/sessions.ts";
import { beginIsolation } from "../trace/begin.ts";
import { Cautions } from "../ui/cautions.tsx";
import { Icon } from "../ui/icon.tsx";
import { replace } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";

interface Props {
  panel: string;
  refs: readonly string[];
}

export function IsolateTargets({ panel, refs }: Props) {
  const open = usePanel(panel);
  if (open.value) return <Choose panel={panel} refs={refs} open={open.value} />;
  return (
    <Screen title={say("page.isolate")} back={{ at: "panel", panel, view: "strips" }}>
      {open.error ? <Trouble error={open.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
    </Screen>
  );
}

function Choose({ panel, refs, open: { opened } }: Props & { open: OpenPanel }) {
  const [at, setAt] = useCondition(panel, opened);
  const [typed, setTyped] = useState("");
  const set = (chosen: string[]): void => replace({ at: "isolate", panel, refs: chosen });
  const things = search(opened, typed).filter((thing) => !refs.includes(keyOf(thing)));
  return (
    <Screen
      title={say("page.isolate")}
      sub={opened.name}
      back={{ at: "panel", panel, view: "strips" }}
      foot={
        <button
          type="button"
          class="action"
          disabled={refs.length === 0}
          onClick={() => void beginIsolation(panel, opened.name, at, refs)}
        >
          <Icon name="lock" /> {say(refs.length === 0 ? "page.choose-first" : "page.what-to-open")}
        </button>
      }
    >
      <p>{say("page.isolate-note")}</p>
      <Cautions cautions={opened.cautions} />
      {refs.length > 0 && (
        <ul class="choices">
          {refs.map((ref) => (
            <li key={ref} class="chosen">
              <b>{ref}</b>
              <button
                type="button"
                class="square"
                aria-label={say("page.take-off", { thing: ref })}
                onClick={() => set(refs.filter((other) => other !== ref))}
              >
                <Icon name="close" />
              </button>
            </li>
          ))}
        </ul>
      )}
      <ConditionChoice opened={opened} at={at} choose={setAt} />
      <SearchField name={say("page.work-on")} typed={typed} type={setTyped} />
      {typed.trim() !== "" && things.length === 0 && <p class="wait">{say("page.nothing-found")}</p>}
      <ThingList
        things={things}
        icon="add"
        choose={(thing) => {
          set([...refs, keyOf(thing)]);
          setTyped("");
        }}
      />
    </Screen>
  );
}
