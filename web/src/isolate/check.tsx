// A checklist: one large line each, ticked by a thumb, with its sign and word.
import type { ComponentChildren } from "preact";

export function Checks({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section>
      <h2 class="heading">{title}</h2>
      <ul class="checks">{children}</ul>
    </section>
  );
}

interface Props {
  done: boolean;
  tick: (done: boolean) => void;
  /** What must come before has not been done. */
  blocked?: boolean;
  children: ComponentChildren;
}

export function Check({ done, tick, blocked = false, children }: Props) {
  return (
    <li>
      <label class={done ? "check check-done" : "check"}>
        <input
          type="checkbox"
          checked={done}
          disabled={blocked && !done}
          // Ticked once it is on disk, as everything is, and not by the browser before.
          onClick={(event) => {
            event.preventDefault();
            tick(!done);
          }}
        />
        <div class="check-line">{children}</div>
      </label>
    </li>
  );
}
