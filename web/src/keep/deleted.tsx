// What was put away. Here, and only here, something goes for good, and only
// here one is asked.
import { useState } from "preact/hooks";
import { largestPhotos } from "../store/photos.ts";
import { nearlyFull, room } from "../store/room.ts";
import type { Kind } from "../store/schema.ts";
import { bringBack, DAYS_KEPT, deleteForGood, putAwayThings } from "../store/trash.ts";
import { day, when } from "../ui/date.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { say } from "../words.ts";
import { useHeld, useKept } from "./kept.ts";
import { sizeOf } from "./sizes.ts";
import { Preview } from "./preview.tsx";

interface Going {
  kind: Kind;
  id: string;
  title: string;
}

export function DeletedScreen() {
  const [sure, setSure] = useState<Going | null>(null);
  const away = useKept(putAwayThings, []);
  const things = away.value ?? [];
  return (
    <Screen title={say("page.deleted")} back={{ at: "kept" }}>
      <p class="note">{say("page.deleted-note", { days: DAYS_KEPT })}</p>
      {away.value && things.length === 0 && <p class="wait">{say("page.deleted-none")}</p>}
      <ul class="away">
        {things.map(({ kind, id, title, when: then }) => (
          <li key={`${kind} ${id}`} data-away={kind}>
            <p>
              <b>{title}</b>
              <small>
                {say(`page.away-${kind}`, { when: day.format(new Date(then)), until: day.format(untilOf(then)) })}
              </small>
            </p>
            <button type="button" class="second" onClick={() => void bringBack(kind, id)}>
              <Icon name="undo" /> {say("page.bring-back")}
            </button>
            <button type="button" class="second bad" onClick={() => setSure({ kind, id, title })}>
              <Icon name="bin" /> {say("page.delete-for-good")}
            </button>
          </li>
        ))}
      </ul>
      <Largest choose={setSure} />
      {sure && <Sure going={sure} close={() => setSure(null)} />}
    </Screen>
  );
}

function untilOf(then: string): Date {
  const until = new Date(then);
  until.setDate(until.getDate() + DAYS_KEPT);
  return until;
}

function Sure({ going: { kind, id, title }, close }: { going: Going; close: () => void }) {
  return (
    <Dialog title={say("page.delete-for-good")} sub={title} close={close}>
      <p>{say(`page.sure-${kind}`, { title })}</p>
      <button type="button" class="action" onClick={close}>
        {say("page.keep-it")}
      </button>
      <button
        type="button"
        class="second bad apart"
        onClick={() => void deleteForGood(kind, id).then(close)}
      >
        <Icon name="bin" /> {say("page.delete-for-good")}
      </button>
    </Dialog>
  );
}

/**
 * When the phone is full, a note in the trash may not fit any more. Some browsers
 * tell no page how much room there is: then it is known by a write that waits.
 */
function Largest({ choose }: { choose: (going: Going) => void }) {
  const space = useKept(room, []).value;
  const photos = useKept(largestPhotos, []).value ?? [];
  const full = useHeld() > 0 || (space !== null && space !== undefined && nearlyFull(space));
  if (!full || photos.length === 0) return null;
  return (
    <section class="stack">
      <h2 class="heading">{say("page.largest-photos")}</h2>
      <ul class="away">
        {photos.map(({ id, preview, bytes, when: then }) => {
          const title = say("page.photo-of", { when: when.format(new Date(then)) });
          return (
            <li key={id} data-largest>
              <Preview data={preview} name={title} />
              <p>
                <b>{title}</b>
                <small>{sizeOf(bytes)}</small>
              </p>
              <button type="button" class="second bad" onClick={() => choose({ kind: "photo", id, title })}>
                <Icon name="bin" /> {say("page.delete-for-good")}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
