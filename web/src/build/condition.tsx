// One state of the plant: how everything stands that people, the process or the
// control moves, and what is then done in order.
import type { ComponentChildren } from "preact";
import { useId, useState } from "preact/hooks";
import type { Conditions, DraftEdit, Movable } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Foot } from "./conditions.tsx";
import { Written } from "./fields.tsx";
import { Steps } from "./steps.tsx";
import type { InHand } from "./use.ts";

interface Props {
  panel: string;
  plant: Conditions;
  /** Which of its conditions. */
  at: number;
  hand: InHand;
  /** Shows another one; none for "". */
  open: (name: string) => void;
}

/** The core's groups; what hardly anybody sets is folded. */
const groups = [
  { group: "plant", folded: false },
  { group: "output", folded: false },
  { group: "power", folded: true },
  { group: "strip", folded: true },
] as const;

export function Condition({ panel, plant, at, hand, open }: Props) {
  const one = plant.conditions[at];
  if (!one) return null;
  const write = (edit: Omit<DraftEdit, "op" | "ref">): Promise<boolean> =>
    hand.act({ op: "condition", ref: one.name, ...edit });
  const close = (): void => open("");
  return (
    <Screen
      title={one.name}
      sub={say("page.condition")}
      back={{ at: "build", panel }}
      leave={close}
      steps={hand.drawing?.drawn.steps.length ?? 0}
      foot={<Foot hand={hand} done={close} />}
    >
      <p class="build-made" role="status">
        {hand.made || one.about || say("page.build-stands-about")}
      </p>
      {hand.error !== undefined && <Trouble error={hand.error} />}
      {plant.things.length === 0 && <p class="note">{say("page.build-stands-none")}</p>}
      {groups.map(({ group, folded }) => {
        const things = plant.things.filter((thing) => thing.group === group);
        if (things.length === 0) return null;
        const list = (
          <ul class="stands">
            {things.map((thing) => (
              <Stand key={thing.ref} thing={thing} at={at} write={(positions) => void write({ positions })} />
            ))}
          </ul>
        );
        const moved = things.filter(({ rest, stands }) => stands[at]?.position !== rest).length;
        const title = say(`page.build-stands-${group}`);
        return folded ? (
          <Fold key={group} title={moved > 0 ? say("page.build-stands-moved", { title, n: moved }) : title}>
            {list}
          </Fold>
        ) : (
          <section key={group} class="stack">
            <h2 class="heading">{title}</h2>
            {list}
          </section>
        );
      })}
      <Steps
        steps={one.steps}
        things={plant.things}
        write={(steps) => void write(steps.length > 0 ? { steps } : { clear: ["steps"] })}
      />
      {!one.kept && (
        <Written
          name={say("page.build-name")}
          was={one.name}
          write={async (name) => {
            if (name !== "" && (await write({ name }))) open(name);
          }}
        />
      )}
      <Written
        key={one.about}
        name={say("page.build-about")}
        was={one.about}
        write={(about) => void write(about === "" ? { clear: ["about"] } : { about })}
      />
      {!one.kept && (
        <button
          type="button"
          class="second apart"
          onClick={async () => {
            if (await hand.act({ op: "remove-condition", ref: one.name })) close();
          }}
        >
          <Icon name="bin" /> {say("page.build-condition-remove", { name: one.name })}
        </button>
      )}
    </Screen>
  );
}

/** A list that is not there until it is asked for: a large panel has a hundred levers. */
function Fold({ title, children }: { title: string; children: ComponentChildren }) {
  const [open, setOpen] = useState(false);
  return (
    <details class="fold" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title}</summary>
      {open && children}
    </details>
  );
}

interface StandProps {
  thing: Movable;
  at: number;
  write: (positions: Record<string, string>) => void;
}

/** How one thing stands: a tap puts it elsewhere. */
function Stand({ thing, at, write }: StandProps) {
  const id = useId();
  const stand = thing.stands[at];
  if (!stand) return null;
  // A process value of one's own stands beside those that are offered.
  const shown = thing.positions.some(({ name }) => name === stand.position)
    ? thing.positions
    : [...thing.positions, { name: stand.position, text: stand.position }];
  const put = (position: string): void => write({ [stand.key]: position === thing.rest ? "" : position });
  return (
    <li>
      <p id={id}>
        <b>{[thing.tag, thing.ref].filter(Boolean).join(" ")}</b>{" "}
        <small>{[thing.label, thing.kind_name].filter(Boolean).join(" · ")}</small>
      </p>
      <div class="segments" role="group" aria-labelledby={id}>
        {shown.map(({ name, text }) => (
          <button
            key={name}
            type="button"
            class="segment"
            aria-pressed={stand.position === name}
            onClick={() => stand.position !== name && put(name)}
          >
            {stand.position === name && <Icon name="works" />} {text}
          </button>
        ))}
      </div>
      {thing.analogue && (
        <Written
          key={stand.position}
          name={say("page.build-stands-value", { thing: thing.tag || thing.ref })}
          hint={say("page.build-stands-value-hint")}
          was={stand.position}
          write={put}
        />
      )}
    </li>
  );
}
