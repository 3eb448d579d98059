// What is new on a panel: a strip, a part, or what feeds it.
import { useState } from "preact/hooks";
import type { StripView } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { part } from "./edits.ts";
import { Count, Entry, Written } from "./fields.tsx";
import { Guesses } from "./guesses.tsx";
import type { Act } from "./use.ts";

const MOST_BLOCKS = 500;

export function StripSheetBody({ strips, act }: { strips: StripView[]; act: Act }) {
  const [one, setOne] = useState<string | null>(null);
  const strip = strips.find(({ ref }) => ref === one);
  return (
    <>
      <Blocks strips={strips} act={act} choose={setOne} />
      {strip && <OneStrip key={strip.ref} strip={strip} act={act} />}
    </>
  );
}

/** What else there is to say of a strip that stands. */
function OneStrip({ strip: { ref, label }, act }: { strip: StripView; act: Act }) {
  return (
    <>
      <Written name={say("page.build-label")} was={label} write={(text) => void act({ op: "label", ref, label: text })} />
      <Written name={say("page.build-strip-other")} was={ref} write={(name) => void act({ op: "rename", ref, name })} />
      <button type="button" class="second apart" onClick={() => void act({ op: "remove", ref })}>
        <Icon name="bin" /> {say("page.build-remove", { thing: ref })}
      </button>
    </>
  );
}

function Blocks({ strips, act, choose }: { strips: StripView[]; act: Act; choose: (ref: string) => void }) {
  const [count, setCount] = useState(10);
  const [first, setFirst] = useState("");
  const [ref, setRef] = useState("");
  const more = strips.some((strip) => strip.ref === ref.trim());
  const named = { ...(ref.trim() && { ref: ref.trim() }), ...(first.trim() && { first: first.trim() }) };
  const step = { op: "strip", count, ...named };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void act(step);
      }}
    >
      <Count name={say("page.build-blocks-n")} value={count} set={setCount} most={MOST_BLOCKS} />
      <Entry name={say("page.build-first")} hint={say("page.build-first-hint")} value={first} set={setFirst} />
      <Entry name={say("page.build-strip-ref")} hint={say("page.build-next-free")} value={ref} set={setRef} />
      {strips.length > 0 && (
        <div class="foot-row">
          {strips.map((strip) => (
            <button
              key={strip.ref}
              type="button"
              class="second"
              aria-pressed={ref === strip.ref}
              onClick={() => {
                setRef(strip.ref);
                choose(strip.ref);
              }}
            >
              {say("page.build-more-on", { ref: strip.ref })}
            </button>
          ))}
        </div>
      )}
      <button type="submit" class="action sheet-action" disabled={count < 1}>
        <Icon name="add" />{" "}
        {more
          ? say("page.build-strip-longer", { n: count })
          : say("page.build-strip-make", { n: count, first: first.trim() || 1 })}
      </button>
    </form>
  );
}

export function PartNewBody({ act }: { act: Act }) {
  return (
    <Guesses
      name={say("page.build-part-word")}
      hint={say("page.build-word-hint")}
      take={(candidate) => void act(part(candidate))}
    />
  );
}

/** Where the drawing begins: mains, a supply, or a feed of which nothing more is known. */
export function FeedSheetBody({ act }: { act: Act }) {
  const [volts, setVolts] = useState("24 V");
  const figure = volts.trim();
  return (
    <>
      <Entry name={say("page.build-feed-volts")} hint={say("page.build-feed-hint")} value={volts} set={setVolts} />
      <ul class="choices">
        <li>
          <Feed
            name={say("page.build-feed-beyond", { volts: figure })}
            about={say("page.build-feed-beyond-about")}
            // What bonds it lies beyond, too.
            add={() => {
              const word = say("page.build-word-feed", { volts: figure });
              void act({ op: "part", word, ratings: { bonded: "no" } });
            }}
          />
        </li>
        <li>
          <Feed
            name={say("page.build-feed-supply", { volts: figure })}
            about={say("page.build-feed-supply-about")}
            add={() => void act({ op: "part", word: say("page.build-word-supply", { volts: figure }) })}
          />
        </li>
        <li>
          <Feed
            name={say("page.build-feed-mains", { volts: figure })}
            about={say("page.build-feed-mains-about")}
            add={() => {
              // The core takes the two figures of mains apart: "230 V 50 Hz".
              const [, voltage = figure, frequency = ""] = /^(.*\S)\s+(\S+\s*Hz)$/i.exec(figure) ?? [];
              void act({ op: "mains", voltage, ...(frequency && { frequency }) });
            }}
          />
        </li>
      </ul>
    </>
  );
}

function Feed({ name, about, add }: { name: string; about: string; add: () => void }) {
  return (
    <button type="button" class="choice guess" onClick={add}>
      <span>
        <b>{name}</b>
        <small>{about}</small>
      </span>
      <Icon name="add" />
    </button>
  );
}
