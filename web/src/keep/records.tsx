// What is kept with a panel: photos, notes, jobs, and its earlier drawings.
import { useState } from "preact/hooks";
import { Shorts } from "../drill/short.tsx";
import { EarlierJobs } from "../panel/jobs.tsx";
import { incomingFile } from "../receive/incoming.ts";
import { Papers } from "../receive/papers.tsx";
import { getPanel, savePanel, versionsOf } from "../store/panels.ts";
import type { SavedPanel } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { FileButton } from "../ui/filebutton.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Attached } from "./attached.tsx";
import { ofPanel, useKept } from "./kept.ts";

export function Records({ panel }: { panel: string }) {
  return (
    <>
      <a class="second" href={address({ at: "share", kind: "panel", id: panel })}>
        <Icon name="send" /> {say("page.hand-panel-over")}
      </a>
      <h2 class="heading">{say("page.photos-notes")}</h2>
      <Attached owner={{ panel, job: "", thing: "" }} />
      <EarlierJobs panel={panel} />
      <Papers panel={panel} />
      <Shorts panel={panel} />
      <Drawings panel={panel} />
    </>
  );
}

/** A panel of this phone can be given a newer drawing; the older ones stay. */
function Drawings({ panel }: { panel: string }) {
  const kept = useKept(
    async () => ({ now: await getPanel(panel), earlier: await versionsOf(panel) }),
    [panel],
    ofPanel(panel),
  ).value;
  const [error, setError] = useState<unknown>();
  const [beside, setBeside] = useState<SavedPanel | null>(null);
  if (!kept?.now) return null;
  const { now, earlier } = kept;

  const save = async (drawing: { title: string; text: string }): Promise<void> => {
    const saved = await savePanel(panel, now.version, drawing);
    setBeside(saved.id === panel ? null : saved);
  };
  const read = async (chosen: File): Promise<void> => {
    setError(undefined);
    try {
      await incomingFile(chosen, panel);
    } catch (why) {
      setError(why);
    }
  };
  return (
    <section class="stack" data-version={now.version}>
      <h2 class="heading">{say("page.drawing")}</h2>
      <p>{say("page.drawing-now", { n: now.version, when: when.format(new Date(now.changed)) })}</p>
      <FileButton label={say("page.newer-drawing")} icon="add" read={read} />
      {error !== undefined && <Trouble error={error} />}
      <div role="status">
        {beside && (
          <div class="box box-warn" data-conflict>
            <Icon name="caution" />
            <div>
              <p class="strong">{say("page.saved-beside")}</p>
              <p>{say("page.saved-beside-do")}</p>
              <a class="second" href={address({ at: "panel", panel: beside.id, view: "records" })}>
                {say("page.open-beside")}
              </a>
            </div>
          </div>
        )}
      </div>
      {earlier.length > 0 && (
        <>
          <h3>{say("page.earlier-drawings")}</h3>
          <ul class="away">
            {earlier.map(({ version, title, text, saved }) => (
              <li key={version}>
                <p>
                  <b>{title}</b>
                  <small>{say("page.drawing-now", { n: version, when: when.format(new Date(saved)) })}</small>
                </p>
                <button type="button" class="second" onClick={() => void save({ title, text })}>
                  <Icon name="undo" /> {say("page.use-drawing")}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
