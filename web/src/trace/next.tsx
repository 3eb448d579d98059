// Where the search stands: the next reading, the culprit, or why there is none.
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Find, Progress } from "../core/api.ts";
import { pulse } from "../manners/pulse.ts";
import type { OpenPanel } from "../panel/sessions.ts";
import { historyOf } from "../record/history.ts";
import { observations, type Step } from "../store/step.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import type { Job } from "./job.tsx";
import { Outcome, repairOf } from "./outcome.tsx";
import { isAsked, Prompt, promptAt } from "./prompt.tsx";
import { StepsSheet } from "./steps.tsx";
import { SuspectsSheet } from "./suspects.tsx";
import { JobStrip } from "./jobstrip.tsx";
import { Undo } from "./undo.tsx";

interface Props {
  job: Job;
  open: OpenPanel;
  view: "next" | "strip";
}

export function NextScreen({ job, open, view }: Props) {
  const { session, opened } = open;
  const [progress, setProgress] = useState<Progress | null>(null);
  const [sheet, setSheet] = useState<"suspects" | "steps" | null>(null);
  const at = job.account.at || (opened.conditions[0]?.name ?? "normal");
  const asked = JSON.stringify([at, observations(job.account)]);
  // Asked once: what earlier jobs found does not change while this one goes on.
  const history = useMemo(() => historyOf(job.saved.panel, job.saved.id), [job.saved.panel, job.saved.id]);
  const find = useAnswer(
    async (signal) => {
      const answer = await session.find(at, observations(job.account), await history, signal, setProgress);
      setProgress(null);
      return { asked, session, answer };
    },
    [session, asked],
  );
  const back = { at: "job", job: job.saved.id, view: "marks" } as const;
  const enter = (step: Step): void => void job.append(step);

  // An answer to other observations than those that stand is not shown.
  const current = find.value?.asked === asked && find.value.session === session ? find.value.answer : null;
  usePulse(current, job.steps.length);
  if (!current) {
    // From the strip one goes back to the prompt, whether it has been worked out or not.
    const from = view === "strip" ? ({ ...back, view: "next" } as const) : back;
    return (
      <Screen title={say("page.thinking")} sub={opened.name} back={from} foot={<Undo job={job} />} awake>
        {find.error !== undefined ? (
          <>
            <Trouble error={find.error} />
            <a class="second" href={address({ at: "build", panel: job.saved.panel })}>
              <Icon name="pencil" /> {say("page.build-mend")}
            </a>
          </>
        ) : (
          <Waiting progress={progress} back={address(back)} />
        )}
      </Screen>
    );
  }
  const prompted = current.status === "continue" && isAsked(current.next) ? current.next : null;
  if (view === "strip") return <JobStrip job={job} open={open} find={current} at={at} />;
  return (
    <Screen
      title={titleOf(current)}
      sub={job.saved.title}
      back={back}
      steps={job.steps.length}
      fixed={prompted !== null}
      awake
      foot={
        <>
          {current.status !== "continue" && <Ended job={job} find={current} />}
          <div class="foot-row">
            <Undo job={job} />
            <button type="button" class="second" onClick={() => setSheet("suspects")}>
              <Icon name="list" /> {say("page.suspects-n", { n: current.suspects.length })}
            </button>
            <a class="second" href={address({ at: "job", job: job.saved.id, view: "strip" })}>
              <Icon name="strip" /> {say("page.on-strip")}
            </a>
          </div>
        </>
      }
    >
      {prompted ? (
        <Prompt
          key={asked}
          next={prompted}
          why={current.text}
          at={promptAt(job)}
          enter={enter}
          showSteps={() => setSheet("steps")}
          wrong={job.wrong}
        />
      ) : (
        <Outcome key={asked} job={job} find={current} enter={enter} />
      )}
      {sheet === "suspects" && <SuspectsSheet find={current} close={() => setSheet(null)} />}
      {sheet === "steps" && <StepsSheet job={job} opened={opened} close={() => setSheet(null)} />}
    </Screen>
  );
}

/** A pulse of its own when a step has ended the search. */
function usePulse(find: Find | null, steps: number): void {
  const before = useRef(steps);
  useEffect(() => {
    if (!find || before.current === steps) return;
    before.current = steps;
    if (find.status !== "continue") pulse("look");
  }, [find, steps]);
}

function titleOf(find: Find): string {
  switch (find.status) {
    case "continue":
      return say(find.next?.kind === "look" ? "page.look-next" : "page.measure-next");
    case "found":
      return say("page.found");
    case "cannot-separate":
      return say("page.cannot-separate");
    case "nothing-wrong":
      return say("page.nothing-wrong");
    default:
      return say("page.nothing-explains");
  }
}

/** Found and not yet repaired: to be noted. Otherwise the job is to be brought to its end. */
function Ended({ job, find }: { job: Job; find: Find }) {
  const culprit = find.status === "found" && !job.account.repaired ? find.suspects[0] : undefined;
  if (culprit) {
    return (
      <button type="button" class="action" onClick={() => void job.append(repairOf(culprit))}>
        <Icon name="works" /> {say("page.repaired")}
      </button>
    );
  }
  return (
    <a class="action" href={address({ at: "leaving", job: job.saved.id })}>
      {say("page.before-leaving")} <Icon name="next" />
    </a>
  );
}

/** How far the core has come: it tries the faults, then weighs what they would show. */
function standing(progress: Progress | null): string {
  if (!progress || progress.total === 0) return say("page.solving");
  const { done, total } = progress;
  return done < total ? say("page.faults-tried", { done, total }) : say("page.weighing", { total });
}

function Waiting({ progress, back }: { progress: Progress | null; back: string }) {
  return (
    <div class="waiting" role="status">
      <p>{standing(progress)}</p>
      <progress max={progress?.total || 1} value={progress?.done ?? 0} aria-label={say("page.solving")} />
      <a class="second" href={back}>
        <Icon name="close" /> {say("page.stop")}
      </a>
    </div>
  );
}
