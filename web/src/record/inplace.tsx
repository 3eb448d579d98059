// What jobs at this panel left in place: whoever opens it is told first.
import { useKept } from "../keep/kept.ts";
import { papersOf } from "../store/papers.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";
import { toldBy } from "./elsewhere.ts";
import { earlierJobs } from "./history.ts";

export function InPlace({ panel, but = "" }: { panel: string; but?: string }) {
  const jobs = useKept(() => earlierJobs(panel), [panel]).value ?? [];
  const open = jobs.filter(({ saved, temporary }) => temporary.length > 0 && saved.id !== but);
  const papers = useKept(() => papersOf(panel), [panel]).value ?? [];
  const elsewhere = papers.map((paper) => ({ paper, told: toldBy(paper) })).filter(({ told }) => told.open.length > 0);
  if (open.length + elsewhere.length === 0) return null;
  return (
    <section class="still" data-in-place>
      <h2>
        <Icon name="caution" /> {say("page.still-in-place")}
      </h2>
      <ul>
        {open.map(({ saved, temporary }) => (
          <li key={saved.id}>
            <a class="choice" href={address({ at: "record", job: saved.id })}>
              <span>
                {temporary.map(({ change, where }) => (
                  <b key={change + where}>{say(`page.temporary-${change}`, { where })}</b>
                ))}
                <small>{say("page.since-job", { when: when.format(new Date(saved.started)) })}</small>
              </span>
              <Icon name="next" />
            </a>
          </li>
        ))}
        {elsewhere.map(({ paper, told }) => (
          <li key={paper.id}>
            <a class="choice" href={address({ at: "paper", paper: paper.id })}>
              <span>
                {told.open.map((what) => (
                  <b key={what}>{what}</b>
                ))}
                <small>{say("page.by-paper", { when: when.format(new Date(paper.received)) })}</small>
              </span>
              <Icon name="next" />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
