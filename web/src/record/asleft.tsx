// The panel as left: what the repair made otherwise is said on the strip, where
// corrections are; all of it goes into the drawing for good, or was put back as
// drawn. Said by the core in the words of the record.
import { useState } from "preact/hooks";
import { useKept, ofPanel } from "../keep/kept.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { recordOf } from "./ask.ts";
import { jobDocument } from "./gather.ts";
import { settle } from "./settle.ts";
import type { ClosingJob } from "./usejob.ts";

/** Sections of a record that say where the panel is not as drawn. */
const OTHERWISE = ["record.found", "record.left"];

export function AsLeft({ job }: { job: ClosingJob }) {
  const { panel } = job.saved;
  const [error, setError] = useState<unknown>();
  const { settled } = job.account;
  const otherwise = useKept(
    async () => {
      const document = await jobDocument(job.saved.id);
      const corrections = (document.panel?.found?.length ?? 0) + (document.left?.length ?? 0);
      if (corrections === 0) return []; // the usual case needs no workshop
      const { sections } = await recordOf(document, "text", "A4");
      return sections.filter(({ code }) => OTHERWISE.includes(code));
    },
    [job.saved.id, panel, job.steps.length],
    ofPanel(panel),
  ).value;
  const end = async (how: "adopted" | "put-back"): Promise<void> => {
    try {
      await job.append({ kind: "settled", how, version: await settle(panel, how) });
    } catch (why) {
      setError(why);
    }
  };
  return (
    <section class="stack" data-otherwise>
      {(otherwise ?? []).map(({ code, title, lines }) => (
        <div key={code}>
          <h2 class="heading">{title}</h2>
          <ul class="plain">
            {lines.map(({ what }, index) => (
              <li key={index}>{what}</li>
            ))}
          </ul>
        </div>
      ))}
      {settled && (
        <p class="box">
          <Icon name="works" /> <span>{say(`page.settled-${settled.how}`)}</span>
        </p>
      )}
      {!settled && otherwise !== undefined && otherwise.length > 0 && (
        <div class="foot-row">
          <button type="button" class="second" onClick={() => void end("adopted")}>
            <Icon name="pencil" /> {say("page.adopt")}
          </button>
          <button type="button" class="second" onClick={() => void end("put-back")}>
            <Icon name="undo" /> {say("page.was-put-back")}
          </button>
        </div>
      )}
      {job.account.isolate.length === 0 && !settled && (
        <a class="second" href={address({ at: "job", job: job.saved.id, view: "strip" })}>
          <Icon name="strip" /> {say("page.otherwise-now")}
        </a>
      )}
      {error !== undefined && <Trouble error={error} />}
    </section>
  );
}
