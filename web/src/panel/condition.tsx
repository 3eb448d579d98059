// In which state the plant is: it decides what should be on.
import { useEffect, useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { getSetting, putSetting } from "../store/settings.ts";
import { say } from "../words.ts";

/** The condition last chosen for a panel, kept on this phone. */
export function useCondition(panel: string, opened: Opened): [string, (at: string) => void] {
  const first = opened.conditions[0]?.name ?? "normal";
  const [chosen, setChosen] = useState<string | null>(null);
  useEffect(() => {
    void getSetting(`at ${panel}`).then((kept) => {
      // Whoever was faster than the disk has chosen anew.
      if (kept && opened.conditions.some(({ name }) => name === kept)) setChosen((now) => now ?? kept);
    });
  }, [panel, opened]);
  return [
    chosen ?? first,
    (at) => {
      setChosen(at);
      void putSetting(`at ${panel}`, at);
    },
  ];
}

interface Props {
  opened: Opened;
  at: string;
  choose: (at: string) => void;
  /** Whether to say what the state is. */
  explain?: boolean;
}

export function ConditionChoice({ opened, at, choose, explain }: Props) {
  if (opened.conditions.length < 2) return null;
  const about = opened.conditions.find(({ name }) => name === at)?.about;
  return (
    <label class="condition">
      <span>{say("page.condition")}</span>
      <select value={at} onChange={(event) => choose(event.currentTarget.value)}>
        {opened.conditions.map(({ name }) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
      {explain && about && <small>{about}</small>}
    </label>
  );
}
