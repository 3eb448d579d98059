// Short exercises without an attempt: made from a panel by seed, marked by thumb,
// graded by solving it. Nothing of them is kept.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { DrillMark, DrillShort, Opened } from "../core/api.ts";
import { workshop } from "../core/core.ts";
import { PanelSession } from "../core/ask.ts";
import { sourceOf } from "../panel/sessions.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { address, replace, type Route } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";

type ShortRoute = Extract<Route, { at: "short" }>;
type Form = ShortRoute["form"];

const forms: readonly { form: Form; word: Code }[] = [
  { form: "possible", word: "page.form-possible" },
  { form: "predict", word: "page.form-predict" },
  { form: "choose", word: "page.form-choose" },
];

interface Made {
  session: PanelSession;
  opened: Opened;
  short: DrillShort;
}

export function ShortScreen({ route }: { route: ShortRoute }) {
  const { panel, form, seed } = route;
  const made = useAnswer<Made>(
    async (signal) => {
      const session = new PanelSession(await sourceOf(panel), workshop);
      const opened = await session.open();
      return { session, opened, short: await session.short(form, seed, undefined, signal) };
    },
    [panel, form, seed],
  );
  const word = forms.find((one) => one.form === form)?.word ?? "page.drill";
  if (!made.value || made.busy) {
    return (
      <Screen title={say(word)} back={{ at: "drills" }}>
        {made.error !== undefined ? <Trouble error={made.error} /> : <p class="wait">{say("page.solving")}</p>}
      </Screen>
    );
  }
  return <Exercise key={`${panel} ${form} ${seed}`} made={made.value} route={route} title={say(word)} />;
}

function Exercise({ made: { session, opened, short }, route, title }: { made: Made; route: ShortRoute; title: string }) {
  const [answers, setAnswers] = useState<readonly string[]>(short.items.map(() => ""));
  const [choice, setChoice] = useState(-1);
  const [means, setMeans] = useState<readonly (readonly number[])[]>([]);
  const [graded, setGraded] = useState<DrillShort | null>(null);
  const [error, setError] = useState<unknown>();
  const whole = short.form === "choose" ? choice >= 0 : answers.every((answer) => answer !== "");
  const grade = (): void => {
    const marks = { each: [...answers], choice, means: means.map((list) => [...list]) };
    session.short(route.form, route.seed, marks).then(setGraded, setError);
  };
  return (
    <Screen
      title={title}
      sub={opened.name}
      back={{ at: "drills" }}
      foot={
        graded ? (
          <button type="button" class="action" onClick={() => replace({ ...route, seed: route.seed + 1 })}>
            <Icon name="next" /> {say("page.another-exercise")}
          </button>
        ) : (
          <button type="button" class="action" disabled={!whole} onClick={grade}>
            <Icon name="works" /> {say("page.grade-it")}
          </button>
        )
      }
    >
      <ul class="plain known" data-form={short.form}>
        {short.given.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <p class="strong">{short.text}</p>
      {error !== undefined && <Trouble error={error} />}
      {graded && (
        <p class="box strong" role="status" data-right={graded.right}>
          {say("page.right-of", { right: graded.right, all: graded.marks.length })} {graded.truth}
        </p>
      )}
      {short.items.map((item, index) => (
        <Marked key={item.text + index} legend={item.text} mark={graded?.marks[index]}>
          {short.answers.map(({ code, text }) => (
            <button
              key={code}
              type="button"
              class="tab"
              aria-pressed={answers[index] === code}
              disabled={graded !== null}
              onClick={() => setAnswers(answers.map((old, at) => (at === index ? code : old)))}
            >
              {text}
            </button>
          ))}
        </Marked>
      ))}
      {short.options.length > 0 && (
        <Marked legend={say("page.which-step")} mark={graded?.marks[0]}>
          {short.options.map(({ text, outcomes }, index) => (
            <button
              key={text}
              type="button"
              class="tab tab-long"
              aria-pressed={choice === index}
              disabled={graded !== null}
              onClick={() => {
                setChoice(index);
                setMeans(outcomes.map(() => []));
              }}
            >
              {text}
            </button>
          ))}
        </Marked>
      )}
      {short.options[choice]?.outcomes.map((outcome, at) => (
        <Marked key={outcome} legend={say("page.what-would-mean", { outcome })} mark={graded?.marks[at + 1]}>
          {short.suspects.map((suspect, index) => {
            const on = means[at]?.includes(index) ?? false;
            return (
              <button
                key={suspect}
                type="button"
                class="tab"
                aria-pressed={on}
                disabled={graded !== null}
                onClick={() =>
                  setMeans(
                    means.map((list, other) =>
                      other !== at ? list : on ? list.filter((one) => one !== index) : [...list, index],
                    ),
                  )
                }
              >
                {suspect}
              </button>
            );
          })}
        </Marked>
      ))}
    </Screen>
  );
}

interface MarkedProps {
  legend: string;
  mark: DrillMark | undefined;
  children: ComponentChildren;
}

function Marked({ legend, mark, children }: MarkedProps) {
  return (
    <fieldset class={mark ? (mark.right ? "exercise exercise-right" : "exercise exercise-wrong") : "exercise"}>
      <legend>
        {mark && <Icon name={mark.right ? "works" : "wrong"} />} {legend}
      </legend>
      <div class="tabs">{children}</div>
      {mark && !mark.right && <p>{mark.text}</p>}
    </fieldset>
  );
}

/** The three forms, for a panel. */
export function Shorts({ panel }: { panel: string }) {
  const [seed] = useState(() => Math.floor(Math.random() * 1000));
  return (
    <section>
      <h2 class="heading">{say("page.short-exercises")}</h2>
      <ul class="choices">
        {forms.map(({ form, word }) => (
          <li key={form}>
            <a class="choice" href={address({ at: "short", panel, form, seed })}>
              <span>{say(word)}</span>
              <Icon name="next" />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
