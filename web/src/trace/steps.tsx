// What has been seen and measured in this job, in order.
import type { Opened } from "../core/api.ts";
import { figureOf } from "../record/figure.ts";
import type { Standing } from "../store/step.ts";
import { useState } from "preact/hooks";
import { TemporarySheet } from "../isolate/temporary.tsx";
import { Attached } from "../keep/attached.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";
import type { Job } from "./job.tsx";
import { modeName } from "./prompt.tsx";

export function StepsSheet({ job, opened, close }: { job: Job; opened: Opened; close: () => void }) {
  const nameOf = (ref: string): string => {
    const device = opened.devices.find((d) => d.ref === ref);
    return [device?.tag, ref].filter(Boolean).join(" ");
  };
  const [temporary, setTemporary] = useState(false);
  if (temporary) return <TemporarySheet job={job} close={close} />;
  return (
    <Dialog title={say("page.steps")} sub={job.saved.title} close={close}>
      <div class="foot-row">
        <button type="button" class="second" onClick={() => setTemporary(true)}>
          <Icon name="jumper" /> {say("page.temporary-n", { n: job.account.temporary.length })}
        </button>
        <a class="second" href={address({ at: "record", job: job.saved.id })}>
          <Icon name="note" /> {say("page.record")}
        </a>
      </div>
      <ol class="steps">
        {job.steps.map((step, index) => (
          <li key={index}>{sentence(step, nameOf)}</li>
        ))}
      </ol>
      <h3>{say("page.photos-notes")}</h3>
      <Attached owner={{ panel: job.saved.panel, job: job.saved.id, thing: "" }} />
    </Dialog>
  );
}

function sentence(step: Standing, nameOf: (ref: string) => string): string {
  switch (step.kind) {
    case "saw":
      return say(`page.saw-${step.sight}`, { name: nameOf(step.ref) });
    case "reading": {
      const { mode, red, black } = step.reading;
      return say("page.read", { mode: modeName(mode), red, black, value: figureOf(step.reading) });
    }
    case "look":
      return say("page.looked", { ref: nameOf(step.look.ref), state: step.shown });
    case "condition":
      return say("page.with-condition", { at: step.at });
    case "repaired":
      return say("page.did-repair", { place: step.place, repair: step.repair });
    case "isolate":
      return say("page.isolate-begun", { things: step.refs.join(", ") });
    case "tick":
      return say(step.done ? "page.ticked" : "page.unticked", { line: step.line });
    case "temporary":
      return say(step.back ? "page.temporary-back" : `page.temporary-${step.change}`, { where: step.where });
    case "complaint":
      return say("page.complaint-is", { text: step.text });
    case "cause":
      return say("page.cause-is", { text: [step.text, step.place].filter(Boolean).join("; ") });
    case "done":
      return say("page.done-is", { text: step.text });
    case "check":
      return say(step.done ? "page.ticked" : "page.unticked", { line: step.text });
    case "who":
      return say("page.who-is", { name: step.name });
    case "minutes":
      return say("page.minutes-are", { n: step.minutes });
    case "finished":
      return say("page.work-finished");
    case "settled":
      return say(`page.settled-${step.how}`);
  }
}
