// Things by name, one a line, to be chosen.
import { Icon, type IconName } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { keyOf, type Thing } from "./search.ts";

interface Props {
  things: readonly Thing[];
  choose: (thing: Thing) => void;
  icon?: IconName;
}

export function ThingList({ things, choose, icon = "next" }: Props) {
  if (things.length === 0) return null;
  return (
    <ul class="choices">
      {things.map((thing) => (
        <li key={`${thing.kind} ${keyOf(thing)}`}>
          <button type="button" class="choice" onClick={() => choose(thing)}>
            <span>
              <b>{nameOf(thing)}</b>
              <small>{aboutOf(thing)}</small>
            </span>
            <Icon name={icon} />
          </button>
        </li>
      ))}
    </ul>
  );
}

const nameOf = (thing: Thing): string =>
  thing.kind === "part" ? [thing.part.tag, thing.part.ref].filter(Boolean).join(" ") : keyOf(thing);

export function aboutOf(thing: Thing): string {
  switch (thing.kind) {
    case "block":
      return say("page.block-summary", { label: thing.block.label });
    case "part":
      return [thing.part.label, thing.part.kind_name].filter(Boolean).join(" · ");
    case "wire":
      return say("page.wire-summary", { from: thing.wire.from, to: thing.wire.to });
  }
}
