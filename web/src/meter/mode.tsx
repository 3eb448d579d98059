// The selector: one row a mode, with when it may be used.
import type { MeterMode } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  modes: MeterMode[];
  now: string;
  choose: (mode: MeterMode) => void;
  close: () => void;
}

export function ModeSheet({ modes, now, choose, close }: Props) {
  return (
    <Dialog title={say("page.mode")} close={close}>
      <ul class="choices">
        {modes.map((mode) => (
          <li key={mode.mode}>
            <button type="button" class="choice" aria-pressed={mode.mode === now} onClick={() => choose(mode)}>
              <span>
                <b>{mode.name}</b>
                {mode.power_off && <small>{say("page.power-off-only")}</small>}
              </span>
              {mode.mode === now && <Icon name="works" />}
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
