// What was just put away, with the way to take it back.
import { useState } from "preact/hooks";
import type { Kind } from "../store/schema.ts";
import { bringBack, putAway } from "../store/trash.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

export interface Removing {
  /** Puts a thing away at once; nobody is asked. */
  remove: (kind: Kind, id: string, title: string) => void;
  last: { kind: Kind; id: string; title: string } | null;
  undo: () => void;
}

export function useRemoving(): Removing {
  const [last, setLast] = useState<Removing["last"]>(null);
  return {
    last,
    remove: (kind, id, title) => void putAway(kind, id, title).then(() => setLast({ kind, id, title })),
    undo: () => last && void bringBack(last.kind, last.id).then(() => setLast(null)),
  };
}

/** Beside a card: puts what it is of away. */
export function RemoveButton({ label, remove }: { label: string; remove: () => void }) {
  return (
    <button type="button" class="square" aria-label={label} onClick={remove}>
      <Icon name="close" />
    </button>
  );
}

export function Removed({ removing: { last, undo } }: { removing: Removing }) {
  return (
    <div class="removed" role="status">
      {last && (
        <p class="notice">
          <span>{say("page.removed", { title: last.title })}</span>
          <button type="button" class="second" onClick={undo}>
            <Icon name="undo" /> {say("page.undo")}
          </button>
        </p>
      )}
    </div>
  );
}
