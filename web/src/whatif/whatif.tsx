// What else goes down: who is affected by a fault, how, and why; as a list or
// on the strips.
import { useState } from "preact/hooks";
import type { Affected, DeviceState, WhatIf } from "../core/api.ts";
import { ConditionChoice, useCondition } from "../panel/condition.tsx";
import { marksOf, movedOf, noMarks } from "../panel/marks.ts";
import { keyOf, type Thing } from "../panel/search.ts";
import { usePanel, type OpenPanel } from "../panel/sessions.ts";
import { Strip } from "../panel/strip.tsx";
import { ThingSheet } from "../panel/things.tsx";
import { beginTrace } from "../trace/begin.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon, type IconName } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";

interface Props {
  panel: string;
  fault: string;
  view: "list" | "strip";
}

export function WhatIfScreen({ panel, fault, view }: Props) {
  const open = usePanel(panel);
  if (open.value) return <Opened panel={panel} fault={fault} view={view} open={open.value} />;
  return (
    <Screen title={say("page.what-if")} back={{ at: "panel", panel, view: "strips" }}>
      {open.error ? <Trouble error={open.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
    </Screen>
  );
}

function Opened({ panel, fault, view, open: { session, opened } }: Props & { open: OpenPanel }) {
  const [at, setAt] = useCondition(panel, opened);
  const [chosen, setChosen] = useState<Thing | null>(null);
  const answer = useAnswer((signal) => session.whatif(at, [fault], signal), [session, at, fault]);
  const state = useAnswer((signal) => session.state(at, [fault], signal), [session, at, fault]);
  const whatif = answer.value;
  const name = whatif?.faults[0]?.name ?? fault;
  return (
    <Screen title={say("page.what-if")} sub={opened.name} back={{ at: "panel", panel, view: "strips" }}>
      <p class="lead-in">{name}</p>
      <ConditionChoice opened={opened} at={at} choose={setAt} />
      <nav class="tabs" aria-label={say("page.views")}>
        <a
          href={address({ at: "whatif", panel, fault, view: "list" })}
          aria-current={view === "list" ? "page" : undefined}
        >
          <Icon name="list" /> {say("page.as-list")}
        </a>
        <a
          href={address({ at: "whatif", panel, fault, view: "strip" })}
          aria-current={view === "strip" ? "page" : undefined}
        >
          <Icon name="strip" /> {say("page.on-strip")}
        </a>
      </nav>
      <div class="foot-row">
        <a class="second" href={address({ at: "meter", panel, mode: "vdc", red: "", black: "", fault })}>
          <Icon name="dial" /> {say("page.measure-on-it")}
        </a>
        <a class="second" href={address({ at: "author", panel, fault })}>
          <Icon name="lock" /> {say("page.hide-in-drill")}
        </a>
      </div>
      {answer.error !== undefined && <Trouble error={answer.error} />}
      {!whatif && answer.busy && <p class="wait">{say("page.solving")}</p>}
      {whatif && view === "list" && <Consequences whatif={whatif} />}
      {whatif && view === "strip" && (
        <>
          <p class="note">{say("page.moved-note")}</p>
          {opened.strips.map((strip) => (
            <Strip
              key={strip.ref}
              strip={strip}
              marks={{ ...(state.value ? marksOf(state.value) : noMarks), moved: movedOf(whatif) }}
              choose={(block) => setChosen({ kind: "block", block, strip: strip.ref })}
            />
          ))}
        </>
      )}
      {chosen && (
        <ThingSheet
          key={keyOf(chosen)}
          thing={chosen}
          panel={panel}
          session={session}
          opened={opened}
          state={state.value}
          close={() => setChosen(null)}
          choose={setChosen}
          dead={(ref) => void beginTrace(panel, opened.name, at, [ref])}
        />
      )}
    </Screen>
  );
}

function Consequences({ whatif }: { whatif: WhatIf }) {
  return (
    <>
      <p class="box strong">{whatif.text}</p>
      {whatif.cautions.length + whatif.flags.length > 0 && (
        <div class="box box-warn">
          <Icon name="caution" />
          <ul class="plain">
            {[...whatif.cautions, ...whatif.flags].map(({ text }) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
      <ul class="affected">
        {whatif.affected.map((one) => (
          <One key={one.ref + one.effect} one={one} />
        ))}
      </ul>
      {whatif.timeline.length > 0 && (
        <section>
          <h2 class="heading">{say("page.timeline")}</h2>
          <ol class="timeline">
            {whatif.timeline.map(({ ms_min, ms_max, event }) => (
              <li key={`${ms_min} ${event}`}>
                <b>
                  {ms_min === ms_max
                    ? say("page.ms", { ms: ms_min })
                    : say("page.ms-range", { from: ms_min, to: ms_max })}
                </b>
                <span>{event}</span>
              </li>
            ))}
          </ol>
        </section>
      )}
    </>
  );
}

const effects: Record<string, { icon: IconName; word: Code }> = {
  dead: { icon: "dead", word: "page.effect-dead" },
  starved: { icon: "weak", word: "page.effect-starved" },
  "wrong-value": { icon: "wrong", word: "page.effect-wrong-value" },
  "held-on": { icon: "held", word: "page.effect-held-on" },
  chattering: { icon: "weak", word: "page.effect-chattering" },
  unsafe: { icon: "caution", word: "page.effect-unsafe" },
  unprotected: { icon: "open", word: "page.effect-unprotected" },
};

export function One({ one }: { one: Affected }) {
  const effect = effects[one.effect];
  return (
    <li class={`one one-${one.effect}`}>
      <div class="one-head">
        <span class="effect">
          {effect && <Icon name={effect.icon} />} {effect ? say(effect.word) : one.effect}
        </span>
        <b>{[one.tag, one.ref].filter(Boolean).join(" ")}</b>
      </div>
      <p>
        {one.label && <small>{one.label} · </small>}
        {one.text}
      </p>
      <p class="was-now">
        <span>{say("page.was", { state: stateOf(one.was) })}</span>
        <span>{say("page.now", { state: stateOf(one.now) })}</span>
      </p>
      {one.why.map(({ text }) => (
        <p class="why" key={text}>
          {text}
        </p>
      ))}
      {one.process && <p class="process">{one.process}</p>}
    </li>
  );
}

const stateOf = (state: DeviceState): string =>
  [
    state.text,
    state.signal_ma === null ? "" : say("page.milliamps", { ma: state.signal_ma.toFixed(2) }),
    state.celsius === null ? "" : say("page.degrees", { degrees: state.celsius.toFixed(1) }),
  ]
    .filter(Boolean)
    .join(", ");
