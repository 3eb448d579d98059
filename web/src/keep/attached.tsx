// Photos and notes of a panel, a job or one thing: shown, added, put away.
import { useState } from "preact/hooks";
import { addNote, notesOf } from "../store/notes.ts";
import { addPhoto, photosOf } from "../store/photos.ts";
import type { Owner, SavedNote, SavedPhoto } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { FileButton } from "../ui/filebutton.tsx";
import { Icon } from "../ui/icon.tsx";
import { address, go } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { useKept } from "./kept.ts";
import { readPicture } from "./picture.ts";
import { Preview } from "./preview.tsx";
import { RemoveButton, Removed, useRemoving, type Removing } from "./removed.tsx";

interface Props {
  owner: Owner;
  /** What belongs here; without it all of the panel. */
  points?: readonly string[];
}

export function Attached({ owner, points = [] }: Props) {
  const { panel, job, thing } = owner;
  const removing = useRemoving();
  const [writing, setWriting] = useState(false);
  const [error, setError] = useState<unknown>();
  const kept = useKept(
    async () => ({ photos: await photosOf(panel), notes: await notesOf(panel) }),
    [panel],
    ({ kind }) => kind === "photo" || kind === "note" || kind === "all",
  ).value;
  const isHere = (record: Owner): boolean => (!job || record.job === job) && (!thing || record.thing === thing);
  const photos = kept?.photos.filter((photo) => isHere(photo) || photo.marks.some((m) => points.includes(m.terminal)));
  const notes = kept?.notes.filter(isHere);

  const add = async (file: File): Promise<void> => {
    setError(undefined);
    const picture = await readPicture(file).catch(() => null);
    if (!picture) return setError(new Error(say("page.no-picture")));
    try {
      go({ at: "photo", photo: (await addPhoto(owner, picture)).id });
    } catch (why) {
      setError(why);
    }
  };
  return (
    <div class="stack attached">
      <Photos photos={photos ?? []} />
      <Notes notes={notes ?? []} here={owner} removing={removing} />
      <Removed removing={removing} />
      {writing ? (
        <Writing owner={owner} close={() => setWriting(false)} />
      ) : (
        <div class="foot-row">
          <FileButton icon="camera" label={say("page.take-photo")} pictures camera read={add} />
          <FileButton icon="picture" label={say("page.choose-picture")} pictures read={add} />
          <button type="button" class="second" onClick={() => setWriting(true)}>
            <Icon name="note" /> {say("page.write-note")}
          </button>
        </div>
      )}
      {error !== undefined && <Trouble error={error} />}
    </div>
  );
}

function Photos({ photos }: { photos: readonly SavedPhoto[] }) {
  if (photos.length === 0) return null;
  return (
    <ul class="previews">
      {photos.map(({ id, preview, thing, when: then, marks }) => (
        <li key={id}>
          <a href={address({ at: "photo", photo: id })}>
            <Preview data={preview} name={say("page.photo-of", { when: when.format(new Date(then)) })} />
            <small>{thing || (marks.length > 0 ? say("page.marks-n", { n: marks.length }) : say("page.photo"))}</small>
          </a>
        </li>
      ))}
    </ul>
  );
}

function Notes({ notes, here, removing }: { notes: readonly SavedNote[]; here: Owner; removing: Removing }) {
  if (notes.length === 0) return null;
  return (
    <ul class="notes">
      {notes.map(({ id, text, thing, when: then }) => (
        <li key={id} class="card-row">
          <div class="note-text">
            <p>{text}</p>
            <small>
              {here.thing === "" && thing && <b>{thing} · </b>}
              {when.format(new Date(then))}
            </small>
          </div>
          <RemoveButton label={say("page.remove", { title: short(text) })} remove={() => removing.remove("note", id, short(text))} />
        </li>
      ))}
    </ul>
  );
}

/** As much of a note as names it. */
const short = (text: string): string => (text.length > 40 ? `${text.slice(0, 38).trimEnd()} …` : text);

/** What is typed outlives a locked screen; it is a note once it is kept. */
function Writing({ owner, close }: { owner: Owner; close: () => void }) {
  const draft = `note ${owner.panel} ${owner.job} ${owner.thing}`;
  const [text, setText] = useState(() => sessionStorage.getItem(draft) ?? "");
  const type = (typed: string): void => {
    sessionStorage.setItem(draft, typed);
    setText(typed);
  };
  const keep = async (): Promise<void> => {
    await addNote(owner, text.trim());
    sessionStorage.removeItem(draft);
    close();
  };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== "") void keep();
      }}
    >
      <label class="stack">
        <span class="strong">{say("page.note")}</span>
        <textarea rows={3} value={text} onInput={(event) => type(event.currentTarget.value)} />
      </label>
      <div class="foot-row">
        <button type="button" class="second" onClick={close}>
          {say("page.not-now")}
        </button>
        <button type="submit" class="action" disabled={text.trim() === ""}>
          {say("page.keep-note")}
        </button>
      </div>
    </form>
  );
}
