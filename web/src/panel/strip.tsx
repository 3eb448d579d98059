// A strip as its terminal plan: one row a block, the panel's wires on the left,
// the field's on the right, jumper bars beside the block
// on the side whose metal they join.
import type { BlockView, LevelView, StripView, WireEnd } from "../core/api.ts";
import { say } from "../words.ts";
import { Icon } from "../ui/icon.tsx";
import type { Marks } from "./marks.ts";
import { rowsOf, type Lane, type Row } from "./rows.ts";
import { Symbol } from "./symbol.tsx";

interface Props {
  strip: StripView;
  marks: Marks;
  /** A tap on a block. */
  choose?: (block: BlockView) => void;
  /** Instead: a tap on a piece of metal, for a probe. */
  touch?: (point: string) => void;
}

export function Strip({ strip, marks, choose, touch }: Props) {
  const blocks: Row[][] = [];
  for (const row of rowsOf(strip)) {
    if (row.first) blocks.push([row]);
    else blocks.at(-1)?.push(row);
  }
  return (
    <section class="strip" aria-label={say("page.strip-label", { ref: strip.ref, label: strip.label })}>
      <h2 class="strip-name" id={`strip-${strip.ref}`}>
        <span class="marker">{strip.ref}</span> {strip.label}
      </h2>
      <div class="strip-sides" aria-hidden="true">
        <span>{say("page.side-in")}</span>
        <span>{say("page.side-out")}</span>
      </div>
      <ul class="rail">
        {blocks.map((rows) => (
          <Block key={rows[0]?.block.ref} rows={rows} marks={marks} choose={choose} touch={touch} />
        ))}
      </ul>
    </section>
  );
}

interface BlockProps {
  rows: Row[];
  marks: Marks;
  choose: Props["choose"];
  touch: Props["touch"];
}

function Block({ rows, marks, choose, touch }: BlockProps) {
  const block = rows[0]?.block;
  if (!block) return null;
  const ringed = marks.rings.has(block.ref) || rows.some(({ level }) => touches(marks.rings, level));
  const lit = marks.lit.get(block.ref);
  const inside = (
    <>
      <span class="block-label">
        {block.label && <span class="over-bar">{block.label}</span>}
        {lit && <span class="ring-word over-bar">{say("page.indicator", { state: lit })}</span>}
        {ringed && (
          <span class="ring-word over-bar">
            <Icon name="caution" /> {say("page.suspect")}
          </span>
        )}
      </span>
      {rows.map((row) => (
        <LevelRow key={row.level.level} row={row} marks={marks} touch={touch} />
      ))}
    </>
  );
  const look = ringed ? "block block-ringed" : "block";
  return (
    <li id={`block-${block.ref}`}>
      {touch ? (
        <div class={look}>{inside}</div>
      ) : (
        <button type="button" class={look} onClick={() => choose?.(block)}>
          {inside}
        </button>
      )}
    </li>
  );
}

const touches = (rings: ReadonlySet<string>, level: LevelView): boolean => rings.has(level.in) || rings.has(level.out);

interface LevelProps {
  row: Row;
  marks: Marks;
  touch: Props["touch"];
}

function LevelRow({ row: { block, level, panelLanes, lanes, first }, marks, touch }: LevelProps) {
  const onePiece = level.in === level.out;
  return (
    <span class={touch ? "level level-touched" : "level"}>
      {touch && <Touch level={level} marks={marks} touch={touch} />}
      <Wires ends={level.in_wires} side="in" />
      <Probes point={level.in} marks={marks} other={onePiece ? "" : level.out} />
      <span class={panelLanes.length > 0 ? "level-body level-body-barred" : "level-body"}>
        <Lanes lanes={panelLanes} side="in" />
        <Volts point={level.in} marks={marks} />
        <span class="level-metal">
          {level.jumper > 0 && <span class="unseen">{say("page.barred", { n: level.jumper })} </span>}
          <span class="number">{level.level > 0 ? `${block.no}.${level.level}` : block.no}</span>
          <Symbol name={block.symbol} cut={level.cut} level={level.level} />
          {first && block.fuse && <span class="fuse">{block.fuse}</span>}
        </span>
        {!onePiece && <Volts point={level.out} marks={marks} />}
        <Lanes lanes={lanes} side="out" />
      </span>
      <Wires ends={level.out_wires} side="out" />
    </span>
  );
}

/** The metal of a level as what a thumb touches: its two sides, or the one piece. */
function Touch({ level, marks, touch }: { level: LevelView; marks: Marks; touch: (point: string) => void }) {
  const sides = level.in === level.out ? (["whole"] as const) : (["in", "out"] as const);
  return (
    <>
      {sides.map((side) => {
        const point = side === "out" ? level.out : level.in;
        return (
          <button
            key={side}
            type="button"
            class={`touch touch-${side}`}
            aria-label={point}
            aria-pressed={point === marks.red || point === marks.black || point === marks.from}
            onClick={() => touch(point)}
          />
        );
      })}
    </>
  );
}

function Wires({ ends, side }: { ends: WireEnd[]; side: "in" | "out" }) {
  return (
    <span class={`wires wires-${side}`}>
      {ends.map((end) => (
        <span class="wire" key={end.no}>
          <b>{end.no}</b>
          <span>{end.other_tag || end.other}</span>
        </span>
      ))}
    </span>
  );
}

function Volts({ point, marks }: { point: string; marks: Marks }) {
  const moved = marks.moved.get(point);
  if (moved) {
    return (
      <span class="volts volts-moved">
        <s>
          <span class="unseen">{say("page.was", { state: "" })}</span>
          {bare(moved.was)}
        </s>{" "}
        <b>
          <span class="unseen">{say("page.now", { state: "" })}</span>
          {bare(moved.now)}
        </b>
      </span>
    );
  }
  return <span class="volts">{marks.volts.get(point) ?? ""}</span>;
}

/** Between two wires there is room for the figure; all on a strip are volts. */
const bare = (shown: string): string => shown.replace(/ V$/, "");

/** The two probes, by shape as well as colour: a disc and a square. */
function Probes({ point, other, marks }: { point: string; other: string; marks: Marks }) {
  const at = (probe: string): string | null =>
    probe === "" ? null : probe === point ? "in" : probe === other ? "out" : null;
  const red = at(marks.red);
  const black = at(marks.black);
  const from = at(marks.from ?? "");
  return (
    <>
      {red && <ProbeMark colour="red" at={red} />}
      {from && (
        <span class={`probe probe-from probe-${from}`}>
          <Icon name="wire" />
          <span class="unseen">{say("page.wire-begins")}</span>
        </span>
      )}
      {black && <ProbeMark colour="black" at={black} />}
    </>
  );
}

function ProbeMark({ colour, at }: { colour: "red" | "black"; at: string }) {
  return (
    <span class={`probe probe-${colour} probe-${at}`}>
      <span aria-hidden="true">{say(`page.${colour}-short`)}</span>
      <span class="unseen">{say(`page.${colour}-probe`)} </span>
    </span>
  );
}

function Lanes({ lanes, side }: { lanes: (Lane | null)[]; side: "in" | "out" }) {
  if (lanes.length === 0) return null;
  return (
    <span class={`lanes lanes-${side}`} aria-hidden="true">
      {lanes.map((lane, index) => (
        <span
          key={index}
          class={["lane", lane?.up && "lane-up", lane?.down && "lane-down", lane?.lands && "lane-lands"]
            .filter(Boolean)
            .join(" ")}
        />
      ))}
    </span>
  );
}
