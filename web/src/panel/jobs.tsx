// Jobs done on a panel before, to go on with or to read again.
import { jobsOf } from "../store/jobs.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";

export const when = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });

export function EarlierJobs({ panel }: { panel: string }) {
  const jobs = useAnswer(() => jobsOf(panel), [panel]).value ?? [];
  if (jobs.length === 0) return null;
  return (
    <section>
      <h2 class="heading">{say("page.earlier-jobs")}</h2>
      <ul class="choices">
        {jobs.map((job) => (
          <li key={job.id}>
            <a class="choice" href={address({ at: "job", job: job.id, view: "marks" })}>
              <span>{when.format(new Date(job.started))}</span>
              <Icon name="next" />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
