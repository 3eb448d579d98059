// Before the door is closed: what is still in place, what it was, what was done,
// what was checked. Each answer is a step of the job, kept at once and undoable;
// nothing here holds anybody up.
import { useEffect, useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
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
import { Temporaries } from "./temporaries.tsx";
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
  useEffect(() => scrollTo(0, 0), []); // what is still in place is on top
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
      <CauseAndRepair job={job} fed={fed.value ?? null} rating={ratingOf(open.value?.opened, fed.value?.fuse ?? "")} />
      <AsLeft job={job} />
      <Checklist job={job} dead={dead} fed={fed.value ?? null} />
      <Signing job={job} />
      {sheet && <TemporarySheet job={job} close={() => setSheet(false)} />}
    </Screen>
  );
}

/** What is written on a fuse of a strip; of a level, what is written on its block. */
function ratingOf(opened: Opened | undefined, fuse: string): string {
  const block = (opened?.strips ?? []).flatMap(({ blocks }) => blocks).find(({ ref }) => ref === fuse || fuse.startsWith(`${ref}.`));
  return block?.fuse ?? "";
}
