// A job: what has been seen and measured, and what to do next. Every step is
// written down before the screen shows it.
import { useEffect, useState } from "preact/hooks";
import { takeBack, takeStep, openDrawing, type Drawing } from "../build/drawing.ts";
import { WrongSheet } from "../build/wrong.tsx";
import type { DraftEdit, Edited } from "../core/api.ts";
import { IsolateScreen } from "../isolate/isolate.tsx";
import { usePanel } from "../panel/sessions.ts";
import { pulse } from "../manners/pulse.ts";
import { unsettle } from "../record/settle.ts";
import { onChange } from "../store/changes.ts";
import type { SavedJob } from "../store/schema.ts";
import { appendStep, getJob, moveJob, stepsOf } from "../store/jobs.ts";
import { account, standing, type Account, type Standing, type Step } from "../store/step.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { MarksScreen } from "./marks.tsx";
import { NextScreen } from "./next.tsx";

export interface Job {
  saved: SavedJob;
  steps: Standing[];
  account: Account;
  /** Resolves once the step is on disk and shown. */
  append: (step: Step) => Promise<void>;
  /** Takes back the last step; null where only the job's beginning is left. */
  undo: (() => void) | null;
  /** Says that the drawing is wrong at a terminal. */
  wrong: (point: string) => void;
}

type View = "marks" | "next" | "strip";

export function JobScreen({ job, view }: { job: string; view: View }) {
  const found = useAnswer(async () => {
    const saved = await getJob(job);
    if (!saved) throw new Error(say("page.no-such-job"));
    return { saved, steps: await stepsOf(job) };
  }, [job]);
  if (!found.value) {
    return (
      <Screen title={say("page.job")} back={{ at: "panels" }}>
        {found.error !== undefined && <Trouble error={found.error} />}
      </Screen>
    );
  }
  return <Loaded key={job} saved={found.value.saved} first={found.value.steps} view={view} />;
}

function Loaded({ saved: found, first, view }: { saved: SavedJob; first: Step[]; view: View }) {
  const [saved, setSaved] = useState(found);
  const [wrong, setWrong] = useState("");
  const [steps, setSteps] = useState(first);
  const open = usePanel(saved.panel);
  useEffect(() => {
    const read = (): void => void stepsOf(saved.id).then(setSteps);
    read(); // somebody may have gone on before this listened
    // Another tab on the same job, or a restored backup that goes further.
    return onChange((change, elsewhere) => {
      const mine = change.kind === "job" ? change.id === saved.id && elsewhere : change.kind === "all";
      if (mine) read();
    });
  }, [saved.id]);
  /** What is found otherwise is written down beside the drawing; a demo panel is copied for it. */
  const change = async (how: (drawing: Drawing) => Promise<Drawing>): Promise<Edited> => {
    const { id, edited } = await how(await openDrawing(saved.panel));
    if (id !== saved.panel) setSaved(await moveJob(saved.id, id));
    return edited;
  };
  const [shown, setShown] = useState(open.value?.opened);
  useEffect(() => open.value && setShown(open.value.opened), [open.value]);
  const sheet = wrong !== "" && shown && (
    <WrongSheet
      key={wrong}
      point={wrong}
      opened={shown}
      correct={(edits: DraftEdit[]) =>
        change((drawing) => {
          const when = new Date().toISOString();
          return takeStep(drawing, edits.map((edit) => ({ ...edit, as_found: true, when })));
        })
      }
      takeBack={async () => void (await change(takeBack))}
      close={() => setWrong("")}
    />
  );
  if (!open.value) {
    return (
      <>
        <Screen title={saved.title} back={{ at: "panels" }}>
          {open.error ? <Trouble error={open.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
          {open.error !== undefined && (
            <a class="action" href={address({ at: "build", panel: saved.panel })}>
              <Icon name="pencil" /> {say("page.build-mend")}
            </a>
          )}
        </Screen>
        {sheet}
      </>
    );
  }
  const append = async (step: Step): Promise<void> => {
    await appendStep(saved.id, step);
    pulse("stored");
    setSteps(await stepsOf(saved.id));
  };
  const stand = standing(steps);
  const begun = stand.length > 1 || (stand.length === 1 && stand[0]?.kind !== "condition");
  const job: Job = {
    saved,
    steps: stand,
    account: account(steps),
    append,
    undo: begun ? () => void unsettle(saved.panel, stand.at(-1)).then(() => append({ kind: "undo" })) : null,
    wrong: setWrong,
  };
  if (job.account.isolate.length > 0) return <IsolateScreen job={job} open={open.value} />;
  const dead = [...job.account.sights.values()].includes("dead");
  return (
    <>
      {view === "marks" || !dead ? (
        <MarksScreen job={job} open={open.value} />
      ) : (
        <NextScreen job={job} open={open.value} view={view} />
      )}
      {sheet}
    </>
  );
}
