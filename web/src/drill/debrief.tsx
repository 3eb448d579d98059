// After the attempt: the learner says first how it went, then sees the record
// beside it, step by step on the strip, and one or two lessons.
import { useEffect, useState } from "preact/hooks";
import type { DrillDebrief, DrillPart, Progress } from "../core/api.ts";
import { putSetting } from "../store/settings.ts";
import type { Rating } from "../store/attempt.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import type { Playing } from "./attempt.tsx";
import { begin, LEARNER } from "./begin.ts";
import { Replay } from "./replay.tsx";

const ratings: readonly { rating: Rating; word: Code }[] = [
  { rating: "sure", word: "page.rating-sure" },
  { rating: "half", word: "page.rating-half" },
  { rating: "lucky", word: "page.rating-lucky" },
  { rating: "lost", word: "page.rating-lost" },
];

export function DebriefScreen({ playing }: { playing: Playing }) {
  const { attempt, drill, keep } = playing;
  const [name, setName] = useState(attempt.learner);
  if (attempt.rating) return <Debrief playing={playing} />;
  return (
    <Screen title={say("page.debrief")} sub={drill.name} back={{ at: "drills" }}>
      <p>{say("page.how-did-it-go")}</p>
      <label class="datum datum-wide">
        <span>{say("page.who-learns")}</span>
        <input type="text" autocomplete="nickname" value={name} onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      <ul class="choices">
        {ratings.map(({ rating, word }) => (
          <li key={rating}>
            <button
              type="button"
              class="choice"
              onClick={() => {
                void putSetting(LEARNER, name.trim());
                void keep((old) => ({ ...old, rating, learner: name.trim() }));
              }}
            >
              <span>{say(word)}</span>
              <Icon name="next" />
            </button>
          </li>
        ))}
      </ul>
    </Screen>
  );
}

function Debrief({ playing }: { playing: Playing }) {
  const { attempt, drill, session, state, keep } = playing;
  const [progress, setProgress] = useState<Progress | null>(null);
  const answer = useAnswer((signal) => session.debrief(attempt.acts, signal, setProgress), [session]);
  const debrief = answer.value;
  useEffect(() => {
    if (!debrief || attempt.result === debrief.result) return;
    void keep((old) => ({
      ...old,
      result: debrief.result,
      classes: [...new Set(debrief.truth.map((fault) => fault.class))],
      minutes: state.minutes,
      readings: state.log.filter((entry) => entry.reading !== null).length,
      gates: debrief.gates.map(({ gate }) => gate),
    }));
  }, [debrief]);
  return (
    <Screen
      title={say("page.debrief")}
      sub={drill.name}
      back={{ at: "drills" }}
      foot={
        debrief &&
        debrief.next_seed !== 0 && (
          <button
            type="button"
            class="action"
            onClick={() => void begin({ demo: attempt.demo, grade: drill.grade, name: drill.name }, debrief.next_seed, attempt.text)}
          >
            <Icon name="next" /> {say("page.again-elsewhere")}
          </button>
        )
      }
    >
      {answer.error !== undefined && <Trouble error={answer.error} />}
      {!debrief && answer.busy && (
        <div class="waiting">
          <p>{say("page.working-out-plan")}</p>
          <progress max={progress?.total ?? 1} value={progress?.done ?? 0} />
        </div>
      )}
      {debrief && <Told debrief={debrief} playing={playing} />}
    </Screen>
  );
}

function Told({ debrief, playing }: { debrief: DrillDebrief; playing: Playing }) {
  const rating = ratings.find(({ rating }) => rating === playing.attempt.rating);
  return (
    <>
      <div class={debrief.result === "found" ? "box strong" : "box box-warn strong"} data-result={debrief.result}>
        <p>{debrief.text}</p>
      </div>
      {rating && <p class="note">{say("page.you-said", { rating: say(rating.word) })}</p>}
      <section>
        <h2 class="heading">{say("page.it-was")}</h2>
        <ul class="plain">
          {debrief.truth.map(({ fault, name }) => (
            <li key={fault}>{name}</li>
          ))}
          {debrief.because && <li>{say("page.nothing-because", { thing: debrief.because })}</li>}
          {debrief.drawing.map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </section>
      {debrief.gates.length > 0 && (
        <section>
          <h2 class="heading">{say("page.gates")}</h2>
          {debrief.gates.map(({ gate, text, act }) => (
            <p key={`${gate} ${act}`} class="box box-warn">
              <Icon name="caution" />
              <span>{text}</span>
            </p>
          ))}
        </section>
      )}
      {debrief.lessons.length > 0 && (
        <section>
          <h2 class="heading">{say("page.lessons")}</h2>
          {debrief.lessons.map(({ code, text }) => (
            <p key={code} class="box">
              {text}
            </p>
          ))}
        </section>
      )}
      <Replay debrief={debrief} playing={playing} />
      <section>
        <h2 class="heading">{say("page.score")}</h2>
        <ul class="score">
          {debrief.parts.map((part) => (
            <Part key={part.code} part={part} />
          ))}
        </ul>
      </section>
      <details class="also-down">
        <summary>{say("page.best-plan", { minutes: debrief.plan_minutes.toFixed(1) })}</summary>
        <ol class="steps">
          {debrief.plan.map(({ text, with: held, shown }, index) => (
            <li key={index}>
              <span>
                {[held, text].filter(Boolean).join(": ")} <b>{shown}</b>
              </span>
            </li>
          ))}
        </ol>
      </details>
      <section>
        <h2 class="heading">{say("page.explained")}</h2>
        <p>{debrief.explanation}</p>
        <ul class="plain">
          {debrief.traps.map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
        {debrief.sources.length > 0 && <p class="note">{say("page.sources", { sources: debrief.sources.join("; ") })}</p>}
      </section>
    </>
  );
}

function Part({ part }: { part: DrillPart }) {
  return (
    <li>
      <p class="did">
        <span>{part.text}</span>
        <b class="figure">{say("page.points-of", { points: part.points, of: part.of })}</b>
      </p>
      <meter min={0} max={part.of} value={part.points} aria-label={part.text} />
      {part.facts.map(({ text }) => (
        <small key={text}>{text}</small>
      ))}
    </li>
  );
}
