// What was received and is not decided yet, on the first screen.
import { useKept } from "../keep/kept.ts";
import { arrivals } from "../store/arrivals.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";

export function Waiting() {
  const all = useKept(arrivals, [], ({ kind }) => kind === "arrival" || kind === "all").value ?? [];
  if (all.length === 0) return null;
  return (
    <ul class="cards">
      {all.map(({ id, title, received }) => (
        <li key={id}>
          <a class="card" href={address({ at: "received", id })} data-arrival={id}>
            <span>
              <b>{title}</b>
              <small>{`${say("page.received-waits")} · ${when.format(new Date(received))}`}</small>
            </span>
            <Icon name="next" />
          </a>
        </li>
      ))}
    </ul>
  );
}
