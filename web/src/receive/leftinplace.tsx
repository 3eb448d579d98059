// What a record from elsewhere left in place, on top of it; the record itself
// stays as it came.
import { toldBy } from "../record/elsewhere.ts";
import { sayBack } from "../store/papers.ts";
import type { SavedPaper } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

export function LeftInPlace({ paper }: { paper: SavedPaper }) {
  const { open } = toldBy(paper);
  if (paper.back) {
    return (
      <div class="box" role="status" data-back>
        <Icon name="works" />
        <div>
          <p>{say("page.paper-back", { when: when.format(new Date(paper.back)) })}</p>
          <button type="button" class="second" onClick={() => void sayBack(paper.id, false)}>
            <Icon name="undo" /> {say("page.undo")}
          </button>
        </div>
      </div>
    );
  }
  if (open.length === 0) return null;
  return (
    <section class="still" data-still={open.length}>
      <h2>
        <Icon name="caution" /> {say("page.still-in-place")}
      </h2>
      <ul>
        {open.map((what) => (
          <li key={what} class="chosen">
            <b>{what}</b>
          </li>
        ))}
      </ul>
      <button type="button" class="second" onClick={() => void sayBack(paper.id, true)}>
        <Icon name="works" /> {say("page.all-is-back")}
      </button>
    </section>
  );
}
