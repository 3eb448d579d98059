// What can be done to one thing: look, operate, pull, tighten, lift, replace.
// Unsafe acts are offered like any other: the drill shows what comes of them.
import type { DrillAct, DrillState, Opened } from "../core/api.ts";
import { endAt, wiresAt } from "../panel/ends.ts";
import { Facts } from "../panel/facts.tsx";
import { keyOf, type Thing } from "../panel/search.ts";
import { aboutOf } from "../panel/thinglist.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Playing } from "./attempt.tsx";

interface Props {
  thing: Thing;
  panel: Opened;
  playing: Playing;
  choose: (thing: Thing) => void;
  close: () => void;
}

export function WorkSheet({ thing, panel, playing: { state, act, busy }, choose, close }: Props) {
  const offers = offersFor(thing, panel, state);
  return (
    <Dialog title={keyOf(thing)} sub={aboutOf(thing)} close={close}>
      <h3>{say("page.do-here")}</h3>
      <ul class="choices">
        {offers.map(({ text, act: doing }) => (
          <li key={text}>
            <button
              type="button"
              class="choice"
              disabled={busy}
              onClick={() => {
                close();
                void act(doing);
              }}
            >
              <span>{text}</span>
              <Icon name="next" />
            </button>
          </li>
        ))}
      </ul>
      <h3>{say("page.on-the-drawing")}</h3>
      <Facts thing={thing} opened={panel} volts={new Map()} choose={choose} />
    </Dialog>
  );
}

interface Doing {
  text: string;
  act: DrillAct;
}

/** Acts that take the thing whole, then those that take an end of a wire on it. */
function offersFor(thing: Thing, panel: Opened, { offers, lifted }: DrillState): Doing[] {
  const ref = keyOf(thing);
  const doings: Doing[] = [];
  for (const { kind, text, targets } of offers) {
    switch (kind) {
      case "look":
        doings.push({ text: `${text} ${ref}`, act: { kind, thing: ref } });
        if (thing.kind !== "part") break;
        for (const { point } of thing.part.terminals) {
          doings.push({ text: say("page.look-closely", { point }), act: { kind, thing: point } });
        }
        break;
      case "replace":
        doings.push({ text: `${text} ${ref}`, act: { kind, thing: ref } });
        break;
      case "pull":
      case "lock":
      case "unlock":
        for (const target of targets) {
          if (belongs(target, ref)) doings.push({ text: `${text}: ${target}`, act: { kind, thing: target } });
        }
        break;
      case "operate":
        for (const step of targets) {
          const target = step.slice(step.lastIndexOf(" ") + 1);
          if (belongs(target, ref)) doings.push({ text: step.replace("-", " "), act: { kind, step } });
        }
        break;
      case "tighten":
      case "lift":
      case "land":
        for (const end of endsOf(thing, panel)) {
          if (lifted.includes(end) === (kind === "land")) doings.push({ text: `${text} ${end}`, act: { kind, thing: end } });
        }
        break;
    }
  }
  return doings;
}

const belongs = (target: string, ref: string): boolean => target === ref || target.startsWith(`${ref}.`) || target.startsWith(`${ref}:`);

/** The ends of wires on a thing, or both ends of a wire: "W12@X1:4/out". */
function endsOf(thing: Thing, panel: Opened): string[] {
  if (thing.kind === "wire") return [thing.wire.from, thing.wire.to].map((point) => `${thing.wire.no}@${point}`);
  const points =
    thing.kind === "part"
      ? thing.part.terminals.map(({ point }) => point)
      : thing.block.levels.flatMap((level) => (level.in === level.out ? [level.in] : [level.in, level.out]));
  return points.flatMap((point) => wiresAt(panel, point).map(({ no }) => endAt(panel, no, point)));
}
