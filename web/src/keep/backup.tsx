// Making a backup: one tap, one file.
import { useState } from "preact/hooks";
import { tell } from "../store/changes.ts";
import { backupState, makeBackup, noteBackup, type Backup, type BackupState } from "../store/backup.ts";
import { day } from "../ui/date.ts";
import { download } from "../ui/download.ts";
import { Icon } from "../ui/icon.tsx";
import { canSend, send, thoughtBetter } from "../ui/send.ts";
import { address } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { useKept } from "./kept.ts";
import { sizeOf } from "./sizes.ts";

export interface Backing {
  state: BackupState | undefined;
  busy: boolean;
  error: unknown;
  /** The name and size of the file just handed over. */
  done: string | null;
  save: () => void;
  /** Null where the phone cannot hand a file to another program. */
  send: (() => void) | null;
}

export function useBackup(): Backing {
  const state = useKept(() => backupState(), []).value;
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>();
  const [done, setDone] = useState<string | null>(null);
  const make = async (hand: (file: File) => unknown): Promise<void> => {
    setBusy(true);
    setError(undefined);
    setDone(null);
    try {
      const { file, made }: Backup = await makeBackup();
      await hand(file);
      // The file is what counts: on a full phone even its date may not fit.
      await noteBackup(made).catch(() => {});
      tell({ kind: "all" });
      setDone(say("page.backup-made", { name: file.name, size: sizeOf(file.size) }));
    } catch (why) {
      if (!thoughtBetter(why)) setError(why);
    } finally {
      setBusy(false);
    }
  };
  return {
    state,
    busy,
    error,
    done,
    save: () => void make(download),
    send: canSend() ? () => void make(send) : null,
  };
}

/** When the last backup was, in a sentence. */
export function stateOf({ last, changed }: BackupState): string {
  if (!last) return say(changed ? "page.never-backed-up" : "page.nothing-to-back-up");
  return say(changed ? "page.backed-up-changed" : "page.backed-up", { when: day.format(last) });
}

/** What of it the panels screen shows: one tap, the date, and a word after a week. */
export function BackupRow() {
  const backup = useBackup();
  const { state } = backup;
  return (
    <section class="keeping" data-due={state?.due}>
      {state?.due && (
        <p class="strong">
          <Icon name="held" /> {say("page.backup-due")}
        </p>
      )}
      <div class="keeping-row">
        <a class="keeping-link" href={address({ at: "kept" })}>
          <span>
            <b>{say("page.backup")}</b>
            <small>{state ? stateOf(state) : " "}</small>
          </span>
          <Icon name="next" />
        </a>
        {(state?.changed || state?.last) && (
          <button type="button" class="second" disabled={backup.busy} onClick={backup.save}>
            {say("page.back-up")}
          </button>
        )}
      </div>
      <BackupOutcome backup={backup} />
    </section>
  );
}

export function BackupOutcome({ backup: { busy, done, error } }: { backup: Backing }) {
  return (
    <>
      <div role="status">
        {busy && <p class="note">{say("page.backing-up")}</p>}
        {done && <p class="note">{done}</p>}
      </div>
      {error !== undefined && <Trouble error={error} />}
    </>
  );
}
