// Jobs done on a panel before, to go on with or to read again.
import { useKept } from "../keep/kept.ts";
import { Removed, useRemoving } from "../keep/removed.tsx";
import { jobsOf } from "../store/jobs.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";

export function EarlierJobs({ panel }: { panel: string }) {
  const jobs = useKept(() => jobsOf(panel), [panel]).value ?? [];
  const removing = useRemoving();
  if (jobs.length === 0 && !removing.last) return null;
  return (
    <section>
      <h2 class="heading">{say("page.earlier-jobs")}</h2>
      <ul class="cards">
        {jobs.map(({ id, title, started, split }) => (
          <li key={id} class="card-row">
            <a class="choice" href={address({ at: "job", job: id, view: "marks" })}>
              <span>
                {when.format(new Date(started))}
                {split && <small>{say(`page.split-${split.why}`)}</small>}
              </span>
              <Icon name="next" />
            </a>
            <button
              type="button"
              class="square"
              aria-label={say("page.remove-job", { when: when.format(new Date(started)) })}
              onClick={() => removing.remove("job", id, `${title}, ${when.format(new Date(started))}`)}
            >
              <Icon name="close" />
            </button>
          </li>
        ))}
      </ul>
      <Removed removing={removing} />
    </section>
  );
}
