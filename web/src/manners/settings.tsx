// How the phone behaves in a hand: whether its screen stays on, whether it answers with a pulse.
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { say, type Code } from "../words.ts";
import { canStayOn, stayOn, useRefused } from "./awake.ts";
import type { Choice } from "./choice.ts";
import { canPulse, pulse, pulses } from "./pulse.ts";

export function SettingsScreen() {
  const refused = useRefused();
  return (
    <Screen title={say("page.in-hand")} back={{ at: "panels" }}>
      <ul class="data">
        <Switch of={stayOn} can={canStayOn()} code="page.stay-on" />
        <Switch of={pulses} can={canPulse()} code="page.pulses" after={() => pulse("stored")} />
      </ul>
      {refused && (
        <p class="box box-warn">
          <Icon name="caution" /> <span>{say("page.stay-on-refused")}</span>
        </p>
      )}
      <p class="note">{say("page.in-hand-note")}</p>
    </Screen>
  );
}

interface SwitchProps {
  of: Choice;
  can: boolean;
  code: "page.stay-on" | "page.pulses";
  /** What it feels like. */
  after?: () => void;
}

function Switch({ of, can, code, after }: SwitchProps) {
  const on = of.use();
  return (
    <li>
      <label class="datum">
        <span>
          {say(code)}
          <small>{say(`${code}-${can ? (on ? "on" : "off") : "absent"}` as Code)}</small>
        </span>
        <input
          type="checkbox"
          role="switch"
          checked={can && on}
          disabled={!can}
          onChange={(event) => {
            of.set(event.currentTarget.checked);
            after?.();
          }}
        />
      </label>
    </li>
  );
}

/** On the first screen: what is chosen, and the way to it. */
export function SettingsRow() {
  const awake = stayOn.use();
  const felt = pulses.use();
  const state = (on: boolean): string => say(on ? "page.is-chosen" : "page.not-chosen");
  return (
    <a class="card" href={address({ at: "settings" })}>
      <span>
        <b>{say("page.in-hand")}</b>
        <small>
          {say("page.in-hand-state", { awake: state(awake && canStayOn()), felt: state(felt && canPulse()) })}
        </small>
      </span>
      <Icon name="next" />
    </a>
  );
}
