// What is dead and what works: one tap each, no meter.
import { useState } from "preact/hooks";
import type { DeviceDef } from "../core/api.ts";
import { ConditionChoice } from "../panel/condition.tsx";
import { filtered } from "../panel/search.ts";
import { SearchField } from "../panel/searchfield.tsx";
import type { OpenPanel } from "../panel/sessions.ts";
import type { Sight } from "../store/step.ts";
import { useAnswer } from "../ui/answer.ts";
import { InPlace } from "../record/inplace.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import type { Job } from "./job.tsx";
import { Undo } from "./undo.tsx";

export function MarksScreen({ job, open: { session, opened } }: { job: Job; open: OpenPanel }) {
  const at = job.account.at || (opened.conditions[0]?.name ?? "normal");
  const healthy = useAnswer((signal) => session.state(at, [], signal), [session, at]);
  const grades = new Map((healthy.value?.devices ?? []).map(({ ref, grade, text }) => [ref, { grade, text }]));
  const { sights } = job.account;
  const [typed, setTyped] = useState("");
  const dead = [...sights.values()].filter((sight) => sight === "dead").length;
  const mark = (ref: string, sight: Sight): void => {
    void job.append({ kind: "saw", ref, sight: sights.get(ref) === sight ? "unsaid" : sight });
  };
  return (
    <Screen
      title={say("page.what-is-dead")}
      sub={opened.name}
      back={{ at: "panel", panel: job.saved.panel, view: "strips" }}
      foot={
        <div class="foot-row">
          <Undo job={job} />
          {dead > 0 ? (
            <a class="action" href={address({ at: "job", job: job.saved.id, view: "next" })}>
              {say("page.what-next")} <Icon name="next" />
            </a>
          ) : (
            <span class="action action-off" aria-disabled="true">
              {say("page.mark-first")}
            </span>
          )}
        </div>
      }
    >
      <ConditionChoice
        explain
        opened={opened}
        at={at}
        choose={(chosen) => void job.append({ kind: "condition", at: chosen })}
      />
      <InPlace panel={job.saved.panel} but={job.saved.id} />
      {healthy.error !== undefined && <Trouble error={healthy.error} />}
      <p class="note">{say("page.marks-note")}</p>
      <SearchField name={say("page.filter")} typed={typed} type={setTyped} />
      <ul class="marks">
        {filtered(opened.devices, typed).map((device) => (
          <DeviceMark
            key={device.ref}
            device={device}
            normally={grades.get(device.ref)}
            sight={sights.get(device.ref)}
            mark={(sight) => mark(device.ref, sight)}
          />
        ))}
      </ul>
    </Screen>
  );
}

interface MarkProps {
  device: DeviceDef;
  normally: { grade: string; text: string } | undefined;
  sight: Sight | undefined;
  mark: (sight: Sight) => void;
}

function DeviceMark({ device, normally, sight, mark }: MarkProps) {
  const name = [device.tag, device.ref].filter(Boolean).join(" ");
  return (
    <li class="mark">
      <span class="mark-name">
        <b>{name}</b>
        <small>{device.label || device.kind_name}</small>
        {normally && <small class="mark-normal">{say("page.normally", { state: normally.text })}</small>}
      </span>
      <span class="mark-buttons" role="group" aria-label={name}>
        <button
          type="button"
          class="toggle toggle-dead"
          aria-pressed={sight === "dead"}
          disabled={normally?.grade === "off"}
          onClick={() => mark("dead")}
        >
          <Icon name="dead" />
          {say("page.dead")}
        </button>
        <button
          type="button"
          class="toggle toggle-works"
          aria-pressed={sight === "works"}
          onClick={() => mark("works")}
        >
          <Icon name="works" />
          {say("page.works")}
        </button>
      </span>
    </li>
  );
}
