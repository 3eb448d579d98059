// Jobs done on a panel before: what there was, what it turned out to be, how long
// it took; to go on with or to read again.
import { useState } from "preact/hooks";
import { useKept } from "../keep/kept.ts";
import { RemoveButton, Removed, useRemoving } from "../keep/removed.tsx";
import { earlierJobs, type EarlierJob } from "../record/history.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";
import { SearchField } from "./searchfield.tsx";

/** From how many jobs on there is a field to search them. */
const MANY = 6;

export function EarlierJobs({ panel }: { panel: string }) {
  const jobs = useKept(() => earlierJobs(panel), [panel]).value ?? [];
  const removing = useRemoving();
  const [typed, setTyped] = useState("");
  if (jobs.length === 0 && !removing.last) return null;
  const shown = jobs.filter((job) => has(job, typed));
  return (
    <section class="stack">
      <h2 class="heading">{say("page.earlier-jobs")}</h2>
      {jobs.length >= MANY && <SearchField name={say("page.search-jobs")} typed={typed} type={setTyped} />}
      {shown.length === 0 && typed !== "" && <p class="wait">{say("page.no-such-earlier-job")}</p>}
      <ul class="cards">
        {shown.map((job) => (
          <li key={job.saved.id} class="card-row">
            <Job job={job} />
            <RemoveButton label={say("page.remove-job", { when: begun(job) })} remove={() => removing.remove("job", job.saved.id, `${job.saved.title}, ${begun(job)}`)} />
          </li>
        ))}
      </ul>
      <Removed removing={removing} />
    </section>
  );
}

/** One that has ended is read; one that has not is gone on with. */
function Job({ job }: { job: EarlierJob }) {
  const { saved, symptom, cause, minutes, temporary, ended } = job;
  const to = ended ? ({ at: "record", job: saved.id } as const) : ({ at: "job", job: saved.id, view: "marks" } as const);
  return (
    <a class="choice" href={address(to)}>
      <span>
        {symptom && <b>{symptom}</b>}
        {cause && <span class="earlier-cause">{cause}</span>}
        <small>{ended ? say("page.when-minutes", { when: begun(job), n: minutes }) : say("page.not-ended", { when: begun(job) })}</small>
        {temporary.length > 0 && (
          <small class="not-live">
            <Icon name="caution" /> {say("page.temporary-left", { n: temporary.length })}
          </small>
        )}
        {saved.split && <small>{say(`page.split-${saved.split.why}`)}</small>}
      </span>
      <Icon name="next" />
    </a>
  );
}

const begun = ({ saved }: EarlierJob): string => when.format(new Date(saved.started));

function has({ saved, symptom, cause, faults }: EarlierJob, typed: string): boolean {
  const text = [saved.title, symptom, cause, ...faults, when.format(new Date(saved.started))].join(" ").toLowerCase();
  return typed.toLowerCase().split(/\s+/).every((word) => text.includes(word));
}
