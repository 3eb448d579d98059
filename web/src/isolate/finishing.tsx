// Where no cause is looked for, a person says when the work is over. What is not
// ticked is named and holds nobody up: the checklist is an aid to memory.
import type { Job } from "../trace/job.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";

export function Finishing({ job: { saved, account, append }, points }: { job: Job; points: readonly string[] }) {
  const { ticked, temporary, finished } = account;
  const still = points.filter(
    (point) => ticked.has(say("page.line-opened", { point })) && !ticked.has(say("page.line-closed", { point })),
  );
  return (
    <section class="stack" data-finished={finished}>
      <div role="status">
        {finished && (
          <p class="box">
            <Icon name="works" /> <span>{say("page.work-finished-note")}</span>
          </p>
        )}
      </div>
      {still.length > 0 && (
        <p class="box box-warn" data-not-closed>
          <Icon name="caution" /> <span>{say("page.not-closed-again", { points: still.join(", ") })}</span>
        </p>
      )}
      {finished && temporary.length > 0 && (
        <p class="box box-warn">
          <Icon name="jumper" /> <span>{say("page.temporary-left", { n: temporary.length })}</span>
        </p>
      )}
      {finished ? (
        <a class="second" href={address({ at: "record", job: saved.id })}>
          <Icon name="note" /> {say("page.record")}
        </a>
      ) : (
        <button type="button" class="second" onClick={() => void append({ kind: "finished" })}>
          <Icon name="works" /> {say("page.finish-work")}
        </button>
      )}
    </section>
  );
}
