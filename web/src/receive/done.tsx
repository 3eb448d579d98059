// What became of what came in, and the way to take it back.
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { say, type Code } from "../words.ts";

export interface Outcome {
  /** What it was called when it came. */
  came: string;
  how: Code;
  panel: string;
  title: string;
  /** Another tab had drawn on it meanwhile, so that it is a panel of its own. */
  beside: boolean;
  undo: () => Promise<void>;
}

export function Done({ outcome: { came, how, panel, title, beside, undo } }: { outcome: Outcome }) {
  return (
    <Screen
      title={came || say("page.received")}
      sub={say("page.received")}
      back={{ at: "panels" }}
      foot={
        <div class="foot-row">
          <a class="action" href={address({ at: "panel", panel, view: "strips" })}>
            {say("page.open-panel")} <Icon name="next" />
          </a>
          <button type="button" class="second" onClick={() => void undo()}>
            <Icon name="undo" /> {say("page.undo")}
          </button>
        </div>
      }
    >
      <div class="box" role="status" data-done={how}>
        <Icon name="works" />
        <div>
          <p class="strong told">{say(how, { title })}</p>
          {beside && <p>{say("page.saved-beside")}</p>}
        </div>
      </div>
    </Screen>
  );
}
