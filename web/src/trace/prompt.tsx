// The next reading, on one screen: red where, black where, which mode, what to
// have on, what a healthy panel shows, and what each outcome would mean.
import { useState } from "preact/hooks";
import type { Next, Reading } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { Keypad } from "./keypad.tsx";

interface Props {
  next: Next;
  at: string;
  enter: (reading: Reading) => void;
  showSteps: () => void;
}

export function Prompt({ next, at, enter, showSteps }: Props) {
  const [open, setOpen] = useState<"keypad" | "cautions" | null>(null);
  const { mode, red, black } = next;
  const caution = next.cautions[0];
  return (
    <div class="prompt">
      <div class="dial">
        <b class="dial-mode">{modeName(mode)}</b>
        <span>
          <small data-at>{say("page.have-on", { at: next.with || at })}</small>
          <small>{say("page.healthy", { expect: next.expect })}</small>
        </span>
        <button type="button" class="square" aria-label={say("page.steps")} onClick={showSteps}>
          <Icon name="steps" />
        </button>
      </div>
      <Leads next={next} />
      {caution && (
        <button type="button" class="caution-line" onClick={() => setOpen("cautions")}>
          <Icon name="caution" />
          <span>{caution.text}</span>
          {next.cautions.length > 1 && <b>{say("page.more", { n: next.cautions.length - 1 })}</b>}
        </button>
      )}
      <h2 class="heading">{say("page.what-shows")}</h2>
      <ul class="outcomes">
        {next.outcomes.map((outcome) => (
          <li key={`${outcome.low} ${outcome.high}`}>
            <button
              type="button"
              class="outcome"
              onClick={() => enter({ mode, red, black, value: outcome.value, shown: outcome.shown })}
            >
              <b>{outcome.shown}</b>
              <span>{outcome.text}</span>
            </button>
          </li>
        ))}
        <li>
          <button type="button" class="outcome outcome-other" onClick={() => setOpen("keypad")}>
            <b>
              <Icon name="keypad" />
            </b>
            <span>{say("page.another-figure")}</span>
          </button>
        </li>
      </ul>
      {open === "keypad" && (
        <Keypad
          title={say("page.enter-reading")}
          sub={say("page.between", { mode: modeName(mode), red, black })}
          close={() => setOpen(null)}
          enter={(value) => {
            setOpen(null);
            enter(value === "OL" ? { mode, red, black, value: null, shown: "OL" } : { mode, red, black, value });
          }}
        />
      )}
      {open === "cautions" && (
        <Dialog title={say("page.cautions")} close={() => setOpen(null)}>
          <ul class="plain">
            {next.cautions.map(({ code, text }) => (
              <li key={code}>{text}</li>
            ))}
          </ul>
        </Dialog>
      )}
    </div>
  );
}

/** Where the two probes go. */
export function Leads({ next }: { next: Next }) {
  return (
    <div class="leads">
      <Lead colour="red" point={next.red} tip={next.red_tip} />
      <Lead colour="black" point={next.black} tip={next.black_tip} />
    </div>
  );
}

function Lead({ colour, point, tip }: { colour: "red" | "black"; point: string; tip: string }) {
  return (
    <div class={`lead lead-${colour}`}>
      <span class={`probe-mark probe-mark-${colour}`}>{say(colour === "red" ? "page.red" : "page.black")}</span>
      <span class="lead-where">
        <b>{point}</b>
        <small>{tip}</small>
      </span>
    </div>
  );
}

export function modeName(mode: string): string {
  return mode === "vdc" ? say("page.mode-vdc") : mode === "vac" ? say("page.mode-vac") : mode;
}
