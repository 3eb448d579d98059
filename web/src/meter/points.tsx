// What a probe can touch: the metal of every block on its strip, and the
// terminals of every part.
import { useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import type { Marks } from "../panel/marks.ts";
import { search, type Thing } from "../panel/search.ts";
import { SearchField } from "../panel/searchfield.tsx";
import { Strip } from "../panel/strip.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  opened: Opened;
  marks: Marks;
  touch: (point: string) => void;
  /** What is shown first. */
  first?: "strips" | "parts";
}

export function Points({ opened, marks, touch, first = "strips" }: Props) {
  const [typed, setTyped] = useState("");
  const [view, setView] = useState(first);
  const found = typed.trim() === "" ? null : search(opened, typed);
  const parts = found ? found.flatMap((thing) => (thing.kind === "part" ? [thing.part] : [])) : opened.parts;
  return (
    <>
      <SearchField name={say("page.search-hint")} typed={typed} type={setTyped} />
      {!found && (
        <div class="tabs" role="group" aria-label={say("page.views")}>
          {(["strips", "parts"] as const).map((one) => (
            <button key={one} type="button" class="tab" aria-pressed={view === one} onClick={() => setView(one)}>
              {say(one === "strips" ? "page.strips" : "page.devices")}
            </button>
          ))}
        </div>
      )}
      {found?.length === 0 && <p class="wait">{say("page.nothing-found")}</p>}
      {(found || view === "strips") &&
        opened.strips
          .map((strip) => (found ? { ...strip, blocks: strip.blocks.filter(among(found)) } : strip))
          .filter(({ blocks }) => blocks.length > 0)
          .map((strip) => <Strip key={strip.ref} strip={strip} marks={marks} touch={touch} />)}
      {(found || view === "parts") && (
        <ul class="terminals">
          {parts.map((part) => (
            <li key={part.ref}>
              <p>
                <b>{[part.tag, part.ref].filter(Boolean).join(" ")}</b>{" "}
                <small>{[part.label, part.kind_name].filter(Boolean).join(" · ")}</small>
              </p>
              <div class="terminal-row">
                {part.terminals.map(({ point }) => (
                  <button
                    key={point}
                    type="button"
                    class="terminal"
                    aria-label={point}
                    aria-pressed={point === marks.red || point === marks.black || point === marks.from}
                    onClick={() => touch(point)}
                  >
                    {point === marks.red && <span class="probe-dot probe-dot-red">{say("page.red-short")}</span>}
                    {point === marks.black && <span class="probe-dot probe-dot-black">{say("page.black-short")}</span>}
                    {point === marks.from && <Icon name="wire" />}
                    {point.slice(point.indexOf(":") + 1)}
                  </button>
                ))}
              </div>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

const among =
  (found: Thing[]) =>
  (block: { ref: string }): boolean =>
    found.some((thing) => thing.kind === "block" && thing.block.ref === block.ref);
