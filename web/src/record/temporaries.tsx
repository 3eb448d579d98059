// What is still in place, loud and on top: nobody may overlook it.
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { ClosingJob } from "./usejob.ts";

export function Temporaries({ job }: { job: Pick<ClosingJob, "account" | "append"> }) {
  const { temporary } = job.account;
  if (temporary.length === 0) return null;
  return (
    <section class="still" data-still={temporary.length}>
      <h2>
        <Icon name="caution" /> {say("page.still-in-place")}
      </h2>
      <ul>
        {temporary.map(({ change, where }) => (
          <li key={change + where} class="chosen">
            <b>{say(`page.temporary-${change}`, { where })}</b>
            <button
              type="button"
              class="second"
              onClick={() => void job.append({ kind: "temporary", change, where, back: true })}
            >
              <Icon name="works" /> {say("page.is-back")}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
