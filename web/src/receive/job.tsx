// The record of a job that came in: kept with the panel it was done at, which
// is added first where it is not on this phone and the person says so.
import { useState } from "preact/hooks";
import { readRecord } from "../core/share.ts";
import { dropArrival } from "../store/arrivals.ts";
import { addCopy } from "../store/panels.ts";
import { addPaper } from "../store/papers.ts";
import { RecordSheet } from "../record/sheet.tsx";
import { useAnswer } from "../ui/answer.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address, replace } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { panelOfJob } from "./jobpanel.ts";
import { Frame, type Deciding } from "./screen.tsx";

export function JobArrived(props: Deciding) {
  const { arrival, came } = props;
  const [error, setError] = useState<unknown>();
  const sheet = useAnswer(() => readRecord(arrival.text), [arrival.text]);
  const at = useAnswer(() => panelOfJob(came), [came]);
  const keep = async (panel: () => Promise<string>): Promise<void> => {
    setError(undefined);
    try {
      const paper = await addPaper({ panel: await panel(), title: arrival.title, document: arrival.text }, at.value?.before ?? null);
      await dropArrival(arrival.id);
      replace({ at: "paper", paper: paper.id });
    } catch (why) {
      setError(why);
    }
  };
  const unknown = at.value?.came && at.value.panels.length === 0 ? at.value.came : null;
  const [first] = at.value?.panels ?? [];
  return (
    <Frame {...props}>
      {at.error !== undefined && <Trouble error={at.error} />}
      {error !== undefined && <Trouble error={error} />}
      {at.busy && <p class="wait">{say("page.comparing")}</p>}
      {at.value?.here && first && (
        <div class="box" data-here={at.value.here}>
          <Icon name="works" />
          <div>
            <p class="strong">{say(`page.here-${at.value.here}`)}</p>
            <a class="second" href={address({ at: "panel", panel: first.id, view: "records" })}>
              {say("page.open-panel")}
            </a>
          </div>
        </div>
      )}
      {at.value?.here === "" && (
        <section class="stack">
          {at.value.before && (
            <p class="box" data-before>
              <Icon name="list" />
              <span>{say("page.paper-before", { when: when.format(new Date(at.value.before.received)) })}</span>
            </p>
          )}
          {at.value.panels.map(({ id, title }) => (
            <button key={id} type="button" class="action" onClick={() => void keep(() => Promise.resolve(id))}>
              <Icon name="held" /> <span class="told">{say("page.keep-with", { title })}</span>
            </button>
          ))}
          {unknown && (
            <>
              <p class="told">{say("page.panel-not-here", { title: unknown.name })}</p>
              <button
                type="button"
                class="action"
                onClick={() =>
                  void keep(async () => {
                    const { name: title, document: text, edition, editions } = unknown;
                    return (await addCopy({ title, text, edition, editions })).id;
                  })
                }
              >
                <Icon name="add" /> {say("page.add-panel-and-keep")}
              </button>
            </>
          )}
          {!at.value.came && <p>{say("page.job-without-panel")}</p>}
        </section>
      )}
      {sheet.error !== undefined && <Trouble error={sheet.error} />}
      {sheet.value && <RecordSheet record={sheet.value} paper="A4" />}
    </Frame>
  );
}
