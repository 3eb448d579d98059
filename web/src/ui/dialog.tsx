// A sheet that rises from the bottom, within the thumb's reach. The browser's
// own dialog keeps the focus in it; it gives it back only when it is closed before
// it is taken out, so that is done here.
import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import { say } from "../words.ts";
import { giveBack } from "./focus.ts";
import { Icon } from "./icon.tsx";

interface Props {
  title: string;
  sub?: string | undefined;
  close: () => void;
  children: ComponentChildren;
}

export function Dialog({ title, sub, close, children }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = box.current;
    const before = document.activeElement;
    if (dialog && !dialog.open) dialog.showModal();
    return () => {
      dialog?.close();
      // Where the sheet was opened from, or what is there now instead.
      queueMicrotask(() => giveBack(before));
    };
  }, []);
  return (
    <dialog
      ref={box}
      class="sheet"
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        close();
      }}
      onClick={(event) => event.target === box.current && close()}
    >
      <div class="sheet-head">
        <div>
          <h2 id={id}>{title}</h2>
          {sub && <p>{sub}</p>}
        </div>
        <button type="button" class="square" aria-label={say("page.close")} onClick={close}>
          <Icon name="close" />
        </button>
      </div>
      <div class="sheet-body">{children}</div>
    </dialog>
  );
}
