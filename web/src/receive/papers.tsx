// Records of jobs done at a panel by others.
import { useKept } from "../keep/kept.ts";
import { RemoveButton, Removed, useRemoving } from "../keep/removed.tsx";
import { toldBy } from "../record/elsewhere.ts";
import { papersOf } from "../store/papers.ts";
import type { SavedPaper } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";

export function Papers({ panel }: { panel: string }) {
  const papers = useKept(() => papersOf(panel), [panel]).value ?? [];
  const removing = useRemoving();
  if (papers.length === 0 && !removing.last) return null;
  return (
    <section class="stack">
      <h2 class="heading">{say("page.papers")}</h2>
      <ul class="cards">
        {papers.map((paper) => (
          <li key={paper.id} class="card-row" data-paper={paper.id}>
            <Paper paper={paper} />
            <RemoveButton label={say("page.remove", { title: paper.title })} remove={() => removing.remove("paper", paper.id, paper.title)} />
          </li>
        ))}
      </ul>
      <Removed removing={removing} />
    </section>
  );
}

/** In the order of a job of this phone: what there was, what it turned out to be. */
function Paper({ paper }: { paper: SavedPaper }) {
  const { symptom, cause, open } = toldBy(paper);
  return (
    <a class="choice" href={address({ at: "paper", paper: paper.id })}>
      <span>
        <b>{symptom}</b>
        {cause && <span class="earlier-cause">{cause}</span>}
        <small>{say("page.paper-received", { when: when.format(new Date(paper.received)) })}</small>
        {open.length > 0 && (
          <small class="not-live">
            <Icon name="caution" /> {say("page.temporary-left", { n: open.length })}
          </small>
        )}
      </span>
      <Icon name="next" />
    </a>
  );
}
