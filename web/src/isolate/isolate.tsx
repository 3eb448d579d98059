// Making a thing dead, as a checklist in the order of the work. Every tick is a
// step of the job: a locked screen or an empty battery loses none.
import { useState } from "preact/hooks";
import type { Isolate, IsolatePoint, Proof, Reach } from "../core/api.ts";
import type { OpenPanel } from "../panel/sessions.ts";
import type { Job } from "../trace/job.tsx";
import { modeName } from "../trace/prompt.tsx";
import { StepsSheet } from "../trace/steps.tsx";
import { useAnswer } from "../ui/answer.ts";
import { Cautions } from "../ui/cautions.tsx";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { One } from "../whatif/whatif.tsx";
import { say } from "../words.ts";
import { Check, Checks } from "./check.tsx";
import { Finishing } from "./finishing.tsx";
import { TemporarySheet } from "./temporary.tsx";

export function IsolateScreen({ job, open: { session, opened } }: { job: Job; open: OpenPanel }) {
  const { at, isolate: refs, temporary } = job.account;
  const [sheet, setSheet] = useState<"steps" | "temporary" | null>(null);
  const answer = useAnswer((signal) => session.isolate(at, refs, signal), [session, at, refs.join(" ")]);
  return (
    <Screen
      title={say("page.isolate-of", { things: refs.join(", ") })}
      sub={opened.name}
      back={{ at: "panel", panel: job.saved.panel, view: "strips" }}
      steps={job.steps.length}
      awake
      foot={
        <div class="foot-row">
          <button type="button" class="second" disabled={!job.undo} onClick={() => job.undo?.()}>
            <Icon name="undo" /> {say("page.undo")}
          </button>
          <button type="button" class="second" onClick={() => setSheet("temporary")}>
            <Icon name="jumper" /> {say("page.temporary-n", { n: temporary.length })}
          </button>
          <button type="button" class="second" onClick={() => setSheet("steps")}>
            <Icon name="steps" /> {say("page.steps")}
          </button>
        </div>
      }
    >
      {answer.error !== undefined && <Trouble error={answer.error} />}
      {!answer.value && answer.busy && <p class="wait">{say("page.solving")}</p>}
      {answer.value && <Plan plan={answer.value} job={job} />}
      {sheet === "steps" && <StepsSheet job={job} opened={opened} close={() => setSheet(null)} />}
      {sheet === "temporary" && <TemporarySheet job={job} close={() => setSheet(null)} />}
    </Screen>
  );
}

function Plan({ plan, job }: { plan: Isolate; job: Job }) {
  return (
    <>
      <p class={plan.isolated ? "box strong" : "box box-warn strong"}>{plan.text}</p>
      <Cautions cautions={plan.cautions} />
      {plan.sources.length > 0 && <Sources sources={plan.sources} />}
      {plan.also_down.length > 0 && (
        <details class="also-down">
          <summary>
            <Icon name="dead" /> {say("page.also-down", { n: plan.also_down.length })}
          </summary>
          <ul class="affected">
            {plan.also_down.map((one) => (
              <One key={one.ref + one.effect} one={one} />
            ))}
          </ul>
        </details>
      )}
      {plan.isolated && <Work plan={plan} job={job} />}
      <Finishing job={job} points={plan.open.map(({ point }) => point)} />
    </>
  );
}

function Sources({ sources }: { sources: Reach[] }) {
  return (
    <section>
      <h2 class="heading">{say("page.still-reaches")}</h2>
      <ul class="reaches">
        {sources.map(({ ref, code, text, prevents }) => (
          <li key={ref + code} class={prevents ? "box box-warn" : "box"}>
            <Icon name={prevents ? "caution" : "bolt"} />
            <span>{text}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Open, prove, work, put back: each line ticked where it was done. */
function Work({ plan, job }: { plan: Isolate; job: Job }) {
  const { ticked, temporary } = job.account;
  const tick = (line: string) => ({
    done: ticked.has(line),
    tick: (done: boolean) => void job.append({ kind: "tick", line, done }),
  });
  const opened = plan.open.every(({ point }) => ticked.has(say("page.line-opened", { point })));
  const proved = opened && plan.prove.every((pair) => ticked.has(lineOf(pair)));
  return (
    <>
      <Checks title={say("page.open-in-order")}>
        {plan.open.map((point) => (
          <Check key={point.point} {...tick(say("page.line-opened", { point: point.point }))}>
            <Opening point={point} />
          </Check>
        ))}
      </Checks>
      <Checks title={say("page.prove-dead")}>
        <Check {...tick(say("page.line-tester"))}>{say("page.prove-tester")}</Check>
        {plan.prove.map((pair) => (
          <Check key={lineOf(pair)} {...tick(lineOf(pair))}>
            <Pair pair={pair} />
          </Check>
        ))}
        <Check {...tick(say("page.line-tester-again"))}>{say("page.prove-tester-again")}</Check>
      </Checks>
      <Checks title={say("page.put-back")}>
        {temporary.length > 0 && (
          <li class="box box-warn">
            <Icon name="jumper" />
            <span>{say("page.temporary-left", { n: temporary.length })}</span>
          </li>
        )}
        {[...plan.open].reverse().map(({ point }) => (
          <Check
            key={point}
            {...tick(say("page.line-closed", { point }))}
            blocked={temporary.length > 0 || !ticked.has(say("page.line-opened", { point }))}
          >
            {say("page.close-point", { point })}
          </Check>
        ))}
        <Check {...tick(say("page.line-function"))} blocked={temporary.length > 0 || !proved}>
          {say("page.check-function")}
        </Check>
      </Checks>
    </>
  );
}

const lineOf = ({ red, black }: Proof): string => say("page.line-proved", { red, black });

function Opening({ point }: { point: IsolatePoint }) {
  return (
    <>
      <b>{point.how}</b>
      {point.first && <small class="first">{point.first}</small>}
      {!point.lockable && <small>{say("page.not-lockable")}</small>}
    </>
  );
}

/** One pair: what each mode shows before and must show after. */
function Pair({ pair }: { pair: Proof }) {
  return (
    <>
      <span class="pair">
        <span class="probe-dot probe-dot-red">{say("page.red-short")}</span>
        <span>
          <b>{pair.red}</b> <small>{pair.red_tip}</small>
        </span>
        <span class="probe-dot probe-dot-black">{say("page.black-short")}</span>
        <span>
          <b>{pair.black}</b> <small>{pair.black_tip}</small>
        </span>
      </span>
      <table class="before-after">
        <thead>
          <tr>
            <th scope="col">
              <span class="unseen">{say("page.mode")}</span>
            </th>
            <th scope="col">{say("page.before")}</th>
            <th scope="col">{say("page.now-to-be")}</th>
          </tr>
        </thead>
        <tbody>
          {pair.modes.map((mode, index) => (
            <tr key={mode}>
              <th scope="row">{modeName(mode)}</th>
              <td>{pair.before[index]}</td>
              <td>
                <b>{pair.after[index]}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {!pair.live && (
        <small class="not-live">
          <Icon name="caution" /> {pair.text}
        </small>
      )}
    </>
  );
}
