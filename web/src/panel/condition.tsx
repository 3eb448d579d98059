// In which state the plant is: it decides what should be on.
import { useEffect, useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { getSetting, putSetting } from "../store/settings.ts";
import { say } from "../words.ts";

/** The condition last chosen for a panel, kept on this phone. */
export function useCondition(panel: string, opened: Opened): [string, (at: string) => void] {
  const first = opened.conditions[0]?.name ?? "normal";
  const [at, setAt] = useState(first);
  useEffect(() => {
    void getSetting(`at ${panel}`).then((kept) => {
      if (kept && opened.conditions.some(({ name }) => name === kept)) setAt(kept);
    });
  }, [panel, opened]);
  return [
    at,
    (chosen) => {
      setAt(chosen);
      void putSetting(`at ${panel}`, chosen);
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
