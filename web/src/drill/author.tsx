// Making a drill by thumb: the fault was chosen on its what-if, here come the
// words of the call. It is reckoned, tried, sealed and handed out as a file.
import { useState } from "preact/hooks";
import type { DrillAuthored, Progress, WhatIf } from "../core/api.ts";
import { author } from "../core/drills.ts";
import { useCondition } from "../panel/condition.tsx";
import { usePanel, type OpenPanel } from "../panel/sessions.ts";
import { startAttempt } from "../store/drills.ts";
import { getSetting } from "../store/settings.ts";
import { useAnswer } from "../ui/answer.ts";
import { download } from "../ui/download.ts";
import { Icon } from "../ui/icon.tsx";
import { Later } from "../ui/later.tsx";
import { go, type Route } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { LEARNER } from "./begin.ts";

const shareOf = async () => (await import("../share/screen.tsx")).ShareOf;

interface Props {
  panel: string;
  fault: string;
}

export function AuthorScreen({ panel, fault }: Props) {
  const open = usePanel(panel);
  if (open.value) return <Write panel={panel} fault={fault} open={open.value} />;
  return (
    <Screen title={say("page.make-drill")} back={{ at: "drills" }}>
      {open.error ? <Trouble error={open.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
    </Screen>
  );
}

function Write({ panel, fault, open: { session, opened } }: Props & { open: OpenPanel }) {
  const [at] = useCondition(panel, opened);
  const whatif = useAnswer((signal) => session.whatif(at, [fault], signal), [session, at, fault]);
  const [name, setName] = useState("");
  const [complaint, setComplaint] = useState("");
  const [explanation, setExplanation] = useState("");
  const [made, setMade] = useState<DrillAuthored | null>(null);
  const [progress, setProgress] = useState<Progress | null>(null);
  const [error, setError] = useState<unknown>();
  const [handing, setHanding] = useState<{ name: string; text: string } | null>(null);
  const ready = name.trim() !== "" && complaint.trim() !== "" && whatif.value !== undefined;

  const reckon = async (): Promise<void> => {
    if (!whatif.value) return;
    setError(undefined);
    setMade(null);
    setProgress({ done: 0, total: 1 });
    try {
      const text = document({ panel, opened: opened.document, at, fault, name, complaint, explanation, whatif: whatif.value });
      setMade(await author({ name, text }, undefined, setProgress));
    } catch (why) {
      setError(why);
    } finally {
      setProgress(null);
    }
  };
  const tryIt = async (drill: DrillAuthored): Promise<void> => {
    const learner = (await getSetting(LEARNER)) ?? "";
    const { id } = await startAttempt({ demo: "", text: drill.sealed, seed: 0, grade: drill.grade, learner }, name);
    go({ at: "drill", attempt: id, view: "call" });
  };
  const back: Route = { at: "whatif", panel, fault, view: "list" };
  if (handing) return <Later load={shareOf} source={handing} back={back} leave={() => setHanding(null)} />;
  return (
    <Screen
      title={say("page.make-drill")}
      sub={opened.name}
      back={back}
      foot={
        <button type="button" class="action" disabled={!ready || progress !== null} onClick={() => void reckon()}>
          <Icon name="steps" /> {say("page.how-hard")}
        </button>
      }
    >
      <p class="lead-in">{say("page.hidden", { fault: whatif.value?.faults[0]?.name ?? fault })}</p>
      <Text label={say("page.drill-name")} value={name} set={setName} />
      <Text label={say("page.drill-complaint")} value={complaint} set={setComplaint} />
      <Text label={say("page.drill-explanation")} value={explanation} set={setExplanation} />
      {error !== undefined && <Trouble error={error} />}
      {progress && <progress max={progress.total} value={progress.done} aria-label={say("page.working-out-plan")} />}
      {made && <Reckoned made={made} name={name} tryIt={() => void tryIt(made)} handOver={() => setHanding({ name, text: made.sealed })} />}
    </Screen>
  );
}

function Text({ label, value, set }: { label: string; value: string; set: (value: string) => void }) {
  return (
    <label class="datum datum-wide">
      <span>{label}</span>
      <input type="text" value={value} onInput={(event) => set(event.currentTarget.value)} />
    </label>
  );
}

interface ReckonedProps {
  made: DrillAuthored;
  name: string;
  tryIt: () => void;
  handOver: () => void;
}

function Reckoned({ made, name, tryIt, handOver }: ReckonedProps) {
  if (made.problems.length > 0) {
    return (
      <ul class="plain">
        {made.problems.map(({ text, hint, path }) => (
          <li key={path + text} class="box box-warn">
            <Icon name="caution" />
            <span>
              {text} {hint}
            </span>
          </li>
        ))}
      </ul>
    );
  }
  return (
    <section data-reckoned>
      <h2 class="heading">{say("page.reckoned")}</h2>
      <ul class="plain known">
        <li>{say("page.reckoned-plan", { steps: made.steps, readings: made.readings, minutes: made.minutes.toFixed(1) })}</li>
        <li>{say("page.reckoned-alike", { alike: made.alike, suspects: made.suspects })}</li>
        <li>{say("page.reckoned-grade", { grade: made.grade })}</li>
        {!made.found && <li>{say("page.reckoned-not-found")}</li>}
        {made.traps.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <div class="foot-row">
        <button type="button" class="second" onClick={tryIt}>
          <Icon name="next" /> {say("page.try-it")}
        </button>
        <button type="button" class="second" onClick={() => download(new File([made.sealed], `${name}.drill.json`, { type: "application/json" }))}>
          <Icon name="lock" /> {say("page.sealed-file")}
        </button>
        <button type="button" class="second" onClick={handOver}>
          <Icon name="send" /> {say("page.hand-drill-over")}
        </button>
      </div>
    </section>
  );
}

interface Written {
  panel: string;
  opened: string;
  at: string;
  fault: string;
  name: string;
  complaint: string;
  explanation: string;
  whatif: WhatIf;
}

/** The open document, for the core to check, reckon and seal. */
function document({ panel, opened, at, fault, name, complaint, explanation, whatif }: Written): string {
  const demo = /^demo:(.+)$/.exec(panel)?.[1];
  return JSON.stringify({
    format: "halfsplit-drill",
    version: 1,
    name: name.trim(),
    grade: 1,
    ...(demo ? { demo } : { panel: JSON.parse(opened) as unknown }),
    complaint: complaint.trim(),
    ...(at && at !== "normal" && { at }),
    dead: whatif.affected.filter(({ effect }) => effect === "dead").map(({ ref }) => ref),
    hidden: { faults: [fault], explanation: explanation.trim() || say("page.no-explanation") },
  });
}
