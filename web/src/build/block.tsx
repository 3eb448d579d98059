// One block of a strip or several in a row: what they are, their fuse, a jumper
// across them, what is written on them.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { BlockView, StripView } from "../core/api.ts";
import { terminalsOf } from "../keep/terminals.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { blocks, type Range } from "./edits.ts";
import { Step, Written } from "./fields.tsx";
import { Guesses } from "./guesses.tsx";
import type { Act } from "./use.ts";

interface Props {
  strip: StripView;
  block: BlockView;
  act: Act;
  /** Begins a wire at a point. */
  wire: (point: string) => void;
  /** What lands on it, to go on from there. */
  children: ComponentChildren;
}

export function BlockSheetBody({ strip, block, act, wire, children }: Props) {
  const start = strip.blocks.findIndex(({ ref }) => ref === block.ref);
  const [end, setEnd] = useState(start);
  const last = strip.blocks.length - 1;
  const chosen = strip.blocks.slice(start, end + 1);
  const range: Range = { ref: strip.ref, from: block.no, to: chosen.at(-1)?.no ?? block.no };
  const several = chosen.length > 1;
  const barred = chosen.some(({ levels }) => levels.some(({ jumper }) => jumper > 0));
  const points = terminalsOf({ kind: "block", block, strip: strip.ref });
  const fuses = [...new Set(strip.blocks.map(({ fuse }) => fuse).filter((fuse) => fuse !== "" && fuse !== block.fuse))];
  return (
    <>
      <div class="count" role="group" aria-label={say("page.build-through-name")}>
        <span class="strong">
          {several
            ? say("page.build-through", { from: range.from, to: range.to, n: chosen.length })
            : say("page.build-only", { no: block.no })}
        </span>
        <Step name={say("page.build-less")} off={end <= start} step={() => setEnd(end - 1)}>
          −
        </Step>
        <Step name={say("page.build-more")} off={end >= last} step={() => setEnd(end + 1)}>
          +
        </Step>
        <button type="button" class="second count-end" disabled={end >= last} onClick={() => setEnd(last)}>
          {say("page.build-to-end")}
        </button>
      </div>
      {!several &&
        points.map((point) => (
          <button key={point} type="button" class="second" onClick={() => wire(point)}>
            <Icon name="wire" /> {say("page.build-wire-from", { point })}
          </button>
        ))}
      {several && (
        <button type="button" class="second" onClick={() => void act({ op: "jumper", ...range })}>
          <Icon name="jumper" /> {say("page.build-jumper", { from: range.from, to: range.to })}
        </button>
      )}
      {barred && (
        <button type="button" class="second" onClick={() => void act({ op: "remove-jumper", ...range })}>
          <Icon name="open" /> {say("page.build-no-jumper")}
        </button>
      )}
      <Guesses
        block
        name={say(several ? "page.build-these-are" : "page.build-it-is")}
        hint={say("page.build-block-hint")}
        take={(candidate) => void act(blocks(range, candidate))}
      />
      {!several && children}
      <Written
        name={say("page.build-fuse")}
        hint={say("page.build-fuse-hint")}
        was={block.fuse}
        write={(fuse) =>
          void act(fuse === "" ? { op: "blocks", ...range, clear: ["fuse"] } : { op: "blocks", ...range, fuse })
        }
      />
      {fuses.map((fuse) => (
        <button key={fuse} type="button" class="second" onClick={() => void act({ op: "blocks", ...range, fuse })}>
          {say("page.build-same-fuse", { fuse })}
        </button>
      ))}
      <Written
        name={say("page.build-label")}
        was={block.label}
        write={(label) =>
          void act(label === "" ? { op: "blocks", ...range, clear: ["label"] } : { op: "blocks", ...range, label })
        }
      />
      {!several && (
        <Written
          name={say("page.build-marking")}
          was={block.no}
          write={(name) => void act({ op: "rename", ref: block.ref, name })}
        />
      )}
      <button
        type="button"
        class="second apart"
        onClick={() => void act(...chosen.map(({ ref }) => ({ op: "remove", ref })))}
      >
        <Icon name="bin" />{" "}
        {several
          ? say("page.build-remove-blocks", { n: chosen.length })
          : say("page.build-remove", { thing: block.ref })}
      </button>
    </>
  );
}
