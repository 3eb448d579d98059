// What this phone keeps: the backup, bringing one back, and how safe it is here.
import { useState } from "preact/hooks";
import { restore, type Restored } from "../store/restore.ts";
import { askToKeep, keeping, nearlyFull, room, type Keeping } from "../store/room.ts";
import { putAwayThings } from "../store/trash.ts";
import { useAnswer } from "../ui/answer.ts";
import { FileButton } from "../ui/filebutton.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { BackupOutcome, stateOf, useBackup } from "./backup.tsx";
import { useKept } from "./kept.ts";
import { sizeOf } from "./sizes.ts";

export function KeptScreen() {
  const backup = useBackup();
  const away = useKept(putAwayThings, []).value ?? [];
  return (
    <Screen title={say("page.kept")} back={{ at: "panels" }}>
      <section class="stack">
        <h2 class="heading">{say("page.backup")}</h2>
        <p>{backup.state && stateOf(backup.state)}</p>
        <p class="note">{say("page.backup-note")}</p>
        <button type="button" class="action" disabled={backup.busy} onClick={backup.save}>
          <Icon name="held" /> {say("page.back-up-file")}
        </button>
        {backup.send && (
          <button type="button" class="second" disabled={backup.busy} onClick={backup.send}>
            <Icon name="next" /> {say("page.send-backup")}
          </button>
        )}
        <BackupOutcome backup={backup} />
      </section>
      <Restore />
      <section class="stack">
        <h2 class="heading">{say("page.deleted")}</h2>
        <a class="card" href={address({ at: "deleted" })}>
          <span>{say(away.length === 1 ? "page.deleted-1" : "page.deleted-n", { n: away.length })}</span>
          <Icon name="next" />
        </a>
      </section>
      <Safety />
    </Screen>
  );
}

function Restore() {
  const [busy, setBusy] = useState(false);
  const [done, setDone] = useState<Restored | null>(null);
  const [error, setError] = useState<unknown>();
  const read = async (chosen: File): Promise<void> => {
    setBusy(true);
    setDone(null);
    setError(undefined);
    try {
      setDone(await restore(chosen));
    } catch (why) {
      setError(why);
    } finally {
      setBusy(false);
    }
  };
  return (
    <section class="stack">
      <h2 class="heading">{say("page.restore")}</h2>
      <p class="note">{say("page.restore-note")}</p>
      <FileButton label={say("page.restore-file")} icon="undo" disabled={busy} read={read} />
      <div role="status">
        {busy && <p class="note">{say("page.restoring")}</p>}
        {done && <Outcome {...done} />}
      </div>
      {error !== undefined && <Trouble error={error} />}
    </section>
  );
}

function Outcome({ added, here, beside, unread }: Restored) {
  return (
    <ul class="box plain-box" data-restored>
      <li>{say("page.restored-added", { n: added })}</li>
      <li>{say("page.restored-here", { n: here })}</li>
      {beside > 0 && <li>{say("page.restored-beside", { n: beside })}</li>}
      {unread > 0 && <li class="strong">{say("page.restored-unread", { n: unread })}</li>}
    </ul>
  );
}

/** Whether the browser may clear it, how much room there is, and what to do. */
function Safety() {
  const first = useAnswer(keeping, []).value;
  const [asked, setAsked] = useState<Keeping | null>(null);
  const space = useKept(room, []).value;
  const state = asked ?? first;
  return (
    <section class="stack" data-keeping={state}>
      <h2 class="heading">{say("page.safety")}</h2>
      {state && (
        <div class={state === "kept" ? "box" : "box box-warn"}>
          <Icon name={state === "kept" ? "works" : "caution"} />
          <div>
            <p class="strong">{say(`page.keeping-${state}`)}</p>
            <p>{say(`page.keeping-${state}-do`)}</p>
          </div>
        </div>
      )}
      {state === "may-clear" && (
        <button type="button" class="second" onClick={() => void askToKeep().then(setAsked)}>
          {say("page.ask-to-keep")}
        </button>
      )}
      {asked === "may-clear" && <p role="status">{say("page.not-granted")}</p>}
      {space && (
        <p class={nearlyFull(space) ? "box box-warn" : "note"} data-room>
          {say(nearlyFull(space) ? "page.room-low" : "page.room", { used: sizeOf(space.used), all: sizeOf(space.all) })}
        </p>
      )}
    </section>
  );
}

/** On the panels screen, before it hurts. */
export function RoomNotice() {
  const space = useKept(room, []).value;
  if (!space || !nearlyFull(space)) return null;
  return (
    <a class="caution-line" href={address({ at: "deleted" })} data-room>
      <Icon name="caution" />
      <span>{say("page.room-low", { used: sizeOf(space.used), all: sizeOf(space.all) })}</span>
      <Icon name="next" />
    </a>
  );
}
