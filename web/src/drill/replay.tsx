// The attempt again, a step at a time: what was known, what the reading told,
// who was still suspect, and what would have told most.
import { useState } from "preact/hooks";
import type { DrillDebrief } from "../core/api.ts";
import { noMarks } from "../panel/marks.ts";
import { Strip } from "../panel/strip.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Playing } from "./attempt.tsx";

export function Replay({ debrief, playing: { drill, state } }: { debrief: DrillDebrief; playing: Playing }) {
  const [at, setAt] = useState(0);
  const [strips, setStrips] = useState(false);
  const step = debrief.steps[at];
  if (!step) return null;
  const { act, reading, text } = state.log[step.entry] ?? {};
  const marks = { ...noMarks, red: act?.red ?? "", black: act?.black ?? "", rings: new Set(step.alive) };
  return (
    <section class="replay" data-verdict={step.verdict}>
      <h2 class="heading">{say("page.step-by-step")}</h2>
      <div class="replay-bar">
        <button type="button" class="square" aria-label={say("page.step-before")} disabled={at === 0} onClick={() => setAt(at - 1)}>
          <Icon name="back" />
        </button>
        <b>{say("page.step-of", { n: at + 1, total: debrief.steps.length })}</b>
        <button
          type="button"
          class="square"
          aria-label={say("page.step-after")}
          disabled={at === debrief.steps.length - 1}
          onClick={() => setAt(at + 1)}
        >
          <Icon name="next" />
        </button>
      </div>
      <div class="box">
        <div>
          <p class="did">
            <span>{text}</span>
            {reading && <b class="figure">{reading.shown}</b>}
          </p>
          <p>
            <span class={`grade verdict-${step.verdict}`}>{step.text}</span> {step.why}
          </p>
          <p>{say("page.suspects-from-to", { before: step.before, after: step.after })}</p>
          {step.alive.length > 0 && <small>{say("page.still-suspect", { things: step.alive.join(", ") })}</small>}
          {step.best && (
            <p class="why">{say("page.would-have-told-most", { text: step.best.text })}</p>
          )}
        </div>
      </div>
      <button type="button" class="second" aria-expanded={strips} onClick={() => setStrips(!strips)}>
        <Icon name="strip" /> {say("page.on-strip")}
      </button>
      {strips &&
        drill.panel?.strips.map((strip) => <Strip key={strip.ref} strip={strip} marks={marks} choose={() => undefined} />)}
    </section>
  );
}
