// The states of the plant a panel is asked about: those there are, and another one.
import { useState } from "preact/hooks";
import type { Conditions, DraftEdit, Opened } from "../core/api.ts";
import { conditions } from "../core/ask.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Condition } from "./condition.tsx";
import { Entry } from "./fields.tsx";
import type { InHand } from "./use.ts";

interface Props {
  panel: string;
  opened: Opened;
  hand: InHand;
  done: () => void;
}

export function ConditionsScreen({ panel, opened, hand, done }: Props) {
  const [name, setName] = useState("");
  const text = hand.drawing?.edited.document ?? "";
  const { value: plant, error } = useAnswer((signal) => conditions(text, signal), [text]);
  const open = (chosen: string): void => {
    hand.forget();
    setName(chosen);
  };
  const at = plant?.conditions.findIndex((one) => one.name === name) ?? -1;
  if (plant && at >= 0) {
    return <Condition key={name} panel={panel} plant={plant} at={at} hand={hand} open={open} />;
  }
  const trouble = error ?? hand.error;
  return (
    <Screen
      title={say("page.build-conditions")}
      sub={opened.name}
      back={{ at: "build", panel }}
      leave={done}
      steps={hand.drawing?.drawn.steps.length ?? 0}
      foot={<Foot hand={hand} done={done} />}
    >
      <p class="build-made" role="status">
        {hand.made || say("page.build-conditions-about")}
      </p>
      {trouble !== undefined && <Trouble error={trouble} />}
      {plant && (
        <>
          <ul class="choices">
            {plant.conditions.map((one) => (
              <li key={one.name}>
                <button type="button" class="choice" onClick={() => open(one.name)}>
                  <span>
                    <b>{one.name}</b>
                    {one.about && <small>{one.about}</small>}
                  </span>
                  <Icon name="next" />
                </button>
              </li>
            ))}
          </ul>
          <Another
            plant={plant}
            add={async (edit) => {
              if (await hand.act(edit)) setName(edit.name ?? "");
            }}
          />
        </>
      )}
    </Screen>
  );
}

/** A new state begins as the first one is: most differ from it in little. */
function Another({ plant, add }: { plant: Conditions; add: (edit: DraftEdit) => Promise<void> }) {
  const [typed, setTyped] = useState("");
  const name = typed.trim();
  const taken = plant.conditions.some((one) => one.name === name);
  const [first] = plant.conditions;
  if (!first) return null;
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        const moved = plant.things.flatMap(({ rest, stands: [stand] }) =>
          stand && stand.position !== rest ? [[stand.key, stand.position]] : [],
        );
        void add({
          op: "condition",
          name,
          positions: Object.fromEntries(moved),
          steps: first.steps.map(({ step }) => step),
        });
      }}
    >
      <Entry
        name={say("page.build-condition-new")}
        hint={say("page.build-condition-hint", { first: first.name })}
        value={typed}
        set={setTyped}
      />
      {taken && (
        <p class="said-wrong" role="alert">
          <Icon name="caution" /> {say("page.build-condition-taken", { name })}
        </p>
      )}
      <button type="submit" class="action" disabled={name === "" || taken}>
        <Icon name="add" /> {say("page.build-condition-add")}
      </button>
    </form>
  );
}

/** What the thumb does on both screens. */
export function Foot({ hand, done }: { hand: InHand; done: () => void }) {
  return (
    <div class="foot-row">
      <button type="button" class="second" disabled={hand.drawing?.drawn.steps.length === 0} onClick={hand.undo}>
        <Icon name="undo" /> {say("page.undo")}
      </button>
      <button type="button" class="action" onClick={done}>
        <Icon name="works" /> {say("page.build-wired")}
      </button>
    </div>
  );
}
