// The face of the meter: the figure as large as it goes, what it was measured
// with, and where the two probes are. Nothing here computes.
import type { Meter, MeterMode, Opened } from "../core/api.ts";
import { thingAt } from "../panel/search.ts";
import type { Answer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  position: MeterMode;
  /** Null until both probes are somewhere. */
  reading: Answer<Meter | null> | null;
  red: string;
  black: string;
  opened: Opened;
  /** The probe the next touch moves. */
  next: "red" | "black";
  pick: (probe: "red" | "black") => void;
  load: { pressed: boolean; press: (pressed: boolean) => void } | null;
}

export function Face({ position, reading, red, black, opened, next, pick, load }: Props) {
  const shown = reading?.value;
  const points = position.probes === "points";
  return (
    <section class="face" aria-label={say("page.meter")}>
      <div class="face-display" data-busy={reading?.busy ?? false}>
        <b class="dial-mode">{position.name}</b>
        <output aria-live="polite" class={shown?.refused ? "face-refused" : "face-figure"}>
          {shown ? (shown.refused ? say("page.not-measured") : shown.shown) : "– – –"}
        </output>
      </div>
      {points ? (
        <div class="face-probes">
          <Probe colour="red" point={red} opened={opened} active={next === "red"} pick={pick} />
          <Probe colour="black" point={black} opened={opened} active={next === "black"} pick={pick} />
        </div>
      ) : (
        <p class="face-at">
          {red === "" ? say(position.probes === "wire" ? "page.pick-wire" : "page.pick-break") : <b>{red}</b>}
        </p>
      )}
      {points && !shown && <p class="face-at">{say(next === "red" ? "page.touch-red" : "page.touch-black")}</p>}
      {load && (
        <label class="face-load">
          <input
            type="checkbox"
            checked={load.pressed}
            onChange={(event) => load.press(event.currentTarget.checked)}
          />
          {say("page.load-button")}
        </label>
      )}
      {shown && <Said shown={shown} />}
    </section>
  );
}

function Said({ shown }: { shown: Meter }) {
  const said = [
    ...(shown.refused ? [shown.refused, shown.hint ?? ""] : []),
    shown.consequence?.text ?? "",
    ...shown.disturbs.map(({ text }) => text),
    ...shown.notes.map(({ text }) => text),
  ].filter((text) => text !== "");
  if (said.length === 0) return null;
  return (
    <ul class="face-said">
      {said.map((text) => (
        <li key={text}>
          <Icon name={shown.refused ? "caution" : "next"} /> <span>{text}</span>
        </li>
      ))}
    </ul>
  );
}

interface ProbeProps {
  colour: "red" | "black";
  point: string;
  opened: Opened;
  active: boolean;
  pick: (probe: "red" | "black") => void;
}

function Probe({ colour, point, opened, active, pick }: ProbeProps) {
  const thing = point === "" ? null : thingAt(opened, point);
  const tip = thing?.kind === "block" ? thing.block.label : thing?.kind === "part" ? thing.part.tag || thing.part.label : "";
  return (
    <button type="button" class="face-probe" aria-pressed={active} onClick={() => pick(colour)}>
      <span class={`probe-dot probe-dot-${colour}`}>{say(colour === "red" ? "page.red-short" : "page.black-short")}</span>
      <span>
        <span class="unseen">{say(colour === "red" ? "page.red" : "page.black")} </span>
        <b>{point || "–"}</b>
        {tip && <small>{tip}</small>}
      </span>
    </button>
  );
}
