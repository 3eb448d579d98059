// The panels on this phone: the demo panels that come with the core, and those
// added from a file.
import { useState } from "preact/hooks";
import { hello } from "../core/ask.ts";
import { NewPanel } from "../build/new.tsx";
import { BackupRow } from "../keep/backup.tsx";
import { useKept } from "../keep/kept.ts";
import { RemoveButton, Removed, useRemoving } from "../keep/removed.tsx";
import { RoomNotice } from "../keep/screen.tsx";
import { incomingFile } from "../receive/incoming.ts";
import { SettingsRow } from "../manners/settings.tsx";
import { Waiting } from "../receive/waiting.tsx";
import { latestJob } from "../store/jobs.ts";
import { addedPanels } from "../store/panels.ts";
import { useAnswer } from "../ui/answer.ts";
import { when } from "../ui/date.ts";
import { FileButton } from "../ui/filebutton.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { sessionOf } from "./sessions.ts";

interface Listed {
  id: string;
  name: string;
  about: string;
}

async function demos(signal: AbortSignal): Promise<Listed[]> {
  const { demos: names } = await hello(signal);
  return Promise.all(
    names.map(async (name) => {
      const { name: title, about } = await (await sessionOf(`demo:${name}`)).open();
      return { id: `demo:${name}`, name: title, about };
    }),
  );
}

export function PanelsScreen() {
  const removing = useRemoving();
  const [error, setError] = useState<unknown>();
  const shown = useAnswer(demos, []);
  const last = useKept(latestJob, []);
  const added = useKept(addedPanels, []);

  const add = async (chosen: File): Promise<void> => {
    setError(undefined);
    try {
      await incomingFile(chosen);
    } catch (why) {
      setError(why);
    }
  };

  return (
    <Screen
      title={say("page.panels")}
      foot={
        <div class="foot-row">
          <NewPanel />
          <FileButton label={say("page.add-file")} short={say("page.from-file")} icon="add" read={add} />
          <a class="second" href={address({ at: "scan" })}>
            <Icon name="scan" /> {say("page.scan")}
          </a>
        </div>
      }
    >
      {error !== undefined && <Trouble error={error} />}
      {shown.error !== undefined && <Trouble error={shown.error} />}
      {added.error !== undefined && <Trouble error={added.error} />}
      <RoomNotice />
      <Waiting />
      {last.value && (
        <a class="card" href={address({ at: "job", job: last.value.id, view: "next" })}>
          <span>
            <b>{say("page.go-on", { title: last.value.title })}</b>
            <small>{say("page.begun", { when: when.format(new Date(last.value.started)) })}</small>
          </span>
          <Icon name="next" />
        </a>
      )}
      {(added.value ?? []).length > 0 && (
        <ul class="cards">
          {added.value?.map(({ id, title, split }) => (
            <li key={id} class="card-row">
              <PanelCard id={id} name={title} about={split ? say(`page.split-${split.why}`) : ""} />
              <RemoveButton label={say("page.remove", { title })} remove={() => removing.remove("panel", id, title)} />
            </li>
          ))}
        </ul>
      )}
      <Removed removing={removing} />
      <BackupRow />
      <h2 class="heading">{say("page.demo-panels")}</h2>
      <a class="card" href={address({ at: "drills" })}>
        <span>
          <b>{say("page.drills")}</b>
          <small>{say("page.drills-about")}</small>
        </span>
        <Icon name="next" />
      </a>
      {shown.busy && <p class="wait">{say("page.starting")}</p>}
      <ul class="cards">
        {(shown.value ?? []).map((listed) => (
          <li key={listed.id}>
            <PanelCard {...listed} />
          </li>
        ))}
      </ul>
      <SettingsRow />
    </Screen>
  );
}

function PanelCard({ id, name, about }: Listed) {
  return (
    <a class="card" href={address({ at: "panel", panel: id, view: "strips" })}>
      <span>
        <b>{name}</b>
        {about && <small>{about}</small>}
      </span>
      <Icon name="next" />
    </a>
  );
}
