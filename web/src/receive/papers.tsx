// Records of jobs done at a panel by others.
import { useKept } from "../keep/kept.ts";
import { Removed, useRemoving } from "../keep/removed.tsx";
import { papersOf } from "../store/papers.ts";
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
        {papers.map(({ id, title, received }) => (
          <li key={id} class="card-row" data-paper={id}>
            <a class="choice" href={address({ at: "paper", paper: id })}>
              <span>
                {title}
                <small>{say("page.paper-received", { when: when.format(new Date(received)) })}</small>
              </span>
              <Icon name="next" />
            </a>
            <button
              type="button"
              class="square"
              aria-label={say("page.remove", { title })}
              onClick={() => removing.remove("paper", id, title)}
            >
              <Icon name="close" />
            </button>
          </li>
        ))}
      </ul>
      <Removed removing={removing} />
    </section>
  );
}
