// What was put in, lifted, opened, forced or taken out for the time of the job. Each stays on the
// list until it is back as it was.
import { useState } from "preact/hooks";
import { temporaries, type Temporary } from "../store/step.ts";
import type { Job } from "../trace/job.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { Icon, type IconName } from "../ui/icon.tsx";
import { say } from "../words.ts";

const signs: Record<Temporary, IconName> = { jumper: "jumper", lifted: "wire", lever: "open", forced: "bolt", removed: "part" };

export function TemporarySheet({ job, close }: { job: Pick<Job, "account" | "append">; close: () => void }) {
  const [where, setWhere] = useState("");
  const add = (change: Temporary): void => {
    void job.append({ kind: "temporary", change, where: where.trim(), back: false });
    setWhere("");
  };
  return (
    <Dialog title={say("page.temporary")} sub={say("page.temporary-note")} close={close}>
      {job.account.temporary.length === 0 && <p>{say("page.temporary-none")}</p>}
      <ul class="choices">
        {job.account.temporary.map(({ change, where: place }) => (
          <li key={change + place} class="chosen">
            <b>{say(`page.temporary-${change}`, { where: place })}</b>
            <button
              type="button"
              class="second"
              onClick={() => void job.append({ kind: "temporary", change, where: place, back: true })}
            >
              <Icon name="works" /> {say("page.is-back")}
            </button>
          </li>
        ))}
      </ul>
      <label class="datum datum-wide">
        <span>{say("page.temporary-where")}</span>
        <input
          type="text"
          autocomplete="off"
          autocapitalize="characters"
          value={where}
          onInput={(event) => setWhere(event.currentTarget.value)}
        />
      </label>
      <div class="foot-row">
        {temporaries.map((change) => (
          <button key={change} type="button" class="second" disabled={where.trim() === ""} onClick={() => add(change)}>
            <Icon name={signs[change]} /> {say(`page.add-${change}`)}
          </button>
        ))}
      </div>
    </Dialog>
  );
}
