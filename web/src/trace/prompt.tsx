// The next reading, on one screen: red where, black where, which mode, what to
// have on, what a healthy panel shows, and what each outcome would mean.
import { useState } from "preact/hooks";
import type { Next, Outcome as OutcomeShown } from "../core/api.ts";
import type { Step } from "../store/step.ts";
import { Cautions } from "../ui/cautions.tsx";
import { useFocus } from "../ui/focus.ts";
import { Icon } from "../ui/icon.tsx";
import { say, type Code } from "../words.ts";
import type { Job } from "./job.tsx";
import { Keypad } from "./keypad.tsx";
import { typedFor } from "./typed.ts";

interface Props {
  next: Next;
  /** Where the search stands: why this is asked. */
  why: string;
  /** Which prompt of which job it is: what is half typed belongs to it. */
  at: string;
  /** Something above it wants to be read first. */
  below?: boolean;
  enter: (step: Step) => void;
  showSteps: () => void;
  /** Says that the drawing is wrong at a terminal. */
  wrong?: (point: string) => void;
}

/** A step can be asked for: a repair is told by the page of the outcome. */
export const isAsked = (next: Next | null): next is Next => next?.kind === "reading" || next?.kind === "look";

/** Names the prompt that a job is at. */
export const promptAt = ({ saved, steps }: Job): string => `${saved.id} ${steps.length}`;

export function Prompt({ next, why, at, below = false, enter, showSteps, wrong }: Props) {
  const typed = `${at} ${next.mode} ${next.red} ${next.black}`;
  const [open, setOpen] = useState(() => typedFor(typed) !== null);
  const heading = useFocus<HTMLHeadingElement>(below ? "nowhere" : "top");
  const look = next.kind === "look";
  return (
    <div class="prompt">
      <div class="dial">
        <h2 ref={heading} tabIndex={-1} class="dial-mode" aria-label={said(next)}>
          {look ? say("page.mode-look") : modeName(next.mode)}
        </h2>
        <span data-with={next.with}>
          <small>{say("page.have-on", { at: next.with_text })}</small>
          <small>{say("page.healthy", { expect: next.expect })}</small>
        </span>
        <button type="button" class="square" aria-label={say("page.steps")} onClick={showSteps}>
          <Icon name="steps" />
        </button>
      </div>
      {look ? <LookAt next={next} /> : <Leads next={next} wrong={wrong} />}
      <Cautions cautions={next.cautions} />
      <h2 class="heading">{say(look ? "page.what-seen" : "page.what-shows")}</h2>
      <ul class="outcomes">
        {offered(next).map((outcome) => (
          <li key={`${outcome.low} ${outcome.high} ${outcome.state}`}>
            <button
              type="button"
              class={look ? "outcome outcome-look" : "outcome"}
              data-state={outcome.state}
              data-healthy={outcome.healthy}
              onClick={() => enter({ ...stepOf(next, outcome), expected: next.expect, why })}
            >
              <b>{outcome.shown}</b>
              <span>
                {outcome.healthy && <em>{say("page.as-healthy")}</em>} {outcome.text}
              </span>
            </button>
          </li>
        ))}
        {!look && (
          <li>
            <button type="button" class="outcome outcome-other" onClick={() => setOpen(true)}>
              <b>
                <Icon name="keypad" />
              </b>
              <span>{say("page.another-figure")}</span>
            </button>
          </li>
        )}
      </ul>
      {open && (
        <Keypad
          prompt={typed}
          mode={next.mode}
          title={say("page.enter-reading")}
          sub={say("page.between", { mode: modeName(next.mode), red: next.red, black: next.black })}
          close={() => setOpen(false)}
          enter={(value, shown) => {
            setOpen(false);
            enter({ ...readingOf(next, value === "OL" ? null : value, shown), expected: next.expect, why });
          }}
        />
      )}
    </div>
  );
}

/** The whole prompt in one breath, for those who hear it. */
function said({ kind, mode, red, black, ref, ref_tip }: Next): string {
  if (kind === "look") return say("page.look-at", { ref: [ref, ref_tip].filter(Boolean).join(", ") });
  return say("page.between", { mode: modeName(mode), red, black });
}

/** More than fit beside the keypad under a thumb are not offered. */
const OFFERED = 4;

/** The likeliest outcomes and the healthy one, in the core's order. */
function offered({ outcomes, kind }: Next): OutcomeShown[] {
  if (kind === "look") return outcomes;
  const weight = ({ healthy, probability }: OutcomeShown): number => (healthy ? 2 : probability);
  const chosen = new Set([...outcomes].sort((a, b) => weight(b) - weight(a)).slice(0, OFFERED));
  return outcomes.filter((outcome) => chosen.has(outcome));
}

type Seen = Extract<Step, { kind: "look" | "reading" }>;

function stepOf(next: Next, { value, state, shown }: OutcomeShown): Seen {
  if (next.kind === "look") {
    return { kind: "look", look: { ref: next.ref, state, ...(next.with && { at: next.with }) }, shown };
  }
  return readingOf(next, shown === "OL" ? null : value, shown);
}

function readingOf({ mode, red, black, with: at }: Next, value: number | null, shown: string): Seen {
  return { kind: "reading", reading: { mode, red, black, value, ...(shown && { shown }), ...(at && { at }) } };
}

function LookAt({ next }: { next: Next }) {
  return (
    <div class="leads">
      <div class="lead">
        <span class="probe-mark probe-mark-look">
          <Icon name="eye" />
        </span>
        <span class="lead-where">
          <b>{next.ref}</b>
          <small>{next.ref_tip}</small>
        </span>
      </div>
    </div>
  );
}

type Wrong = ((point: string) => void) | undefined;

/** Where the two probes go. */
export function Leads({ next, wrong }: { next: Next; wrong: Wrong }) {
  return (
    <div class="leads">
      <Lead colour="red" point={next.red} tip={next.red_tip} wrong={wrong} />
      <Lead colour="black" point={next.black} tip={next.black_tip} wrong={wrong} />
    </div>
  );
}

function Lead({ colour, point, tip, wrong }: { colour: "red" | "black"; point: string; tip: string; wrong: Wrong }) {
  return (
    <div class={`lead lead-${colour}`}>
      <span class={`probe-mark probe-mark-${colour}`}>{say(colour === "red" ? "page.red" : "page.black")}</span>
      <span class="lead-where">
        <b>{point}</b>
        <small>{tip}</small>
      </span>
      {wrong && (
        <button type="button" class="square" aria-label={say("page.wrong-at", { point })} onClick={() => wrong(point)}>
          <Icon name="pencil" />
        </button>
      )}
    </div>
  );
}

export function modeName(mode: string): string {
  const names: Record<string, Code> = { vdc: "page.mode-vdc", vac: "page.mode-vac", ohms: "page.mode-ohms" };
  const name = names[mode];
  return name ? say(name) : mode;
}
