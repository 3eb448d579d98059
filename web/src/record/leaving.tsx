// Before the door is closed: what is still in place, what it was, what was done,
// what was checked. Each answer is a step of the job, kept at once and undoable;
// nothing here holds anybody up.
import { useState } from "preact/hooks";
import { Temporaries } from "./temporaries.tsx";
import { TemporarySheet } from "../isolate/temporary.tsx";
import { usePanel } from "../panel/sessions.ts";
import { observations } from "../store/step.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { AsLeft } from "./asleft.tsx";
import { CauseAndRepair } from "./cause.tsx";
import { Checklist } from "./checklist.tsx";
import { sameFuse } from "./fed.ts";
import { causeOf } from "./document.ts";
import { Signing } from "./signing.tsx";
import { useJob, type ClosingJob } from "./usejob.ts";

export function LeavingScreen({ job }: { job: string }) {
  const found = useJob(job);
  if (found.value) return <Leaving job={found.value} />;
  return (
    <Screen title={say("page.before-leaving")} back={{ at: "job", job, view: "next" }}>
      {found.error !== undefined && <Trouble error={found.error} />}
    </Screen>
  );
}

function Leaving({ job }: { job: ClosingJob }) {
  const { saved, account } = job;
  const [sheet, setSheet] = useState(false);
  const open = usePanel(saved.panel);
  const dead = observations(account).dead ?? [];
  const faults = causeOf(account)?.faults ?? [];
  const at = account.at || (open.value?.opened.conditions[0]?.name ?? "normal");
  const session = open.value?.session;
  const fed = useAnswer(
    async (signal) => (session ? sameFuse(session, at, dead, faults, signal) : null),
    [session, at, dead.join(" "), faults.join(" ")],
  );
  return (
    <Screen
      title={say("page.before-leaving")}
      sub={saved.title}
      back={{ at: "job", job: saved.id, view: "next" }}
      steps={job.steps.length}
      foot={
        <>
          <a class="action" href={address({ at: "record", job: saved.id })}>
            <Icon name="note" /> {say("page.record")}
          </a>
          <div class="foot-row">
            <button type="button" class="second" disabled={!job.undo} onClick={() => job.undo?.()}>
              <Icon name="undo" /> {say("page.undo")}
            </button>
            <button type="button" class="second" onClick={() => setSheet(true)}>
              <Icon name="jumper" /> {say("page.temporary-n", { n: account.temporary.length })}
            </button>
          </div>
        </>
      }
    >
      <Temporaries job={job} />
      <CauseAndRepair job={job} fed={fed.value ?? null} fuses={fusesOf(open.value?.opened)} />
      <AsLeft job={job} />
      <Checklist job={job} dead={dead} fed={fed.value ?? null} />
      <Signing job={job} />
      {sheet && <TemporarySheet job={job} close={() => setSheet(false)} />}
    </Screen>
  );
}

/** The rating of each fuse by its block. */
function fusesOf(opened: { strips: { blocks: { ref: string; fuse: string }[] }[] } | undefined): Map<string, string> {
  return new Map((opened?.strips ?? []).flatMap(({ blocks }) => blocks.map(({ ref, fuse }): [string, string] => [ref, fuse])));
}
