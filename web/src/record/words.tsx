// A sheet for words of one's own. What is typed outlives a locked screen; it is
// part of the job once it is kept.
import { useState } from "preact/hooks";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  /** Under which it is held until it is kept. */
  draft: string;
  title: string;
  sub?: string;
  text: string;
  keep: (text: string) => void;
  close: () => void;
}

export function WordsSheet({ draft, title, sub, text: before, keep, close }: Props) {
  const [text, setText] = useState(() => sessionStorage.getItem(draft) ?? before);
  return (
    <Dialog title={title} sub={sub} close={close}>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          sessionStorage.removeItem(draft);
          keep(text.trim());
          close();
        }}
      >
        <textarea
          rows={4}
          aria-label={title}
          value={text}
          onInput={(event) => {
            sessionStorage.setItem(draft, event.currentTarget.value);
            setText(event.currentTarget.value);
          }}
        />
        <button type="submit" class="action">
          {say("page.keep-note")}
        </button>
      </form>
    </Dialog>
  );
}

/** What was said, with the pencil to say it otherwise. */
export function Said({ text, name, change }: { text: string; name: string; change: () => void }) {
  return (
    <div class="card-row">
      <p class="said">{text}</p>
      <button type="button" class="square" aria-label={name} onClick={change}>
        <Icon name="pencil" />
      </button>
    </div>
  );
}
