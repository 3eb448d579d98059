// A strip as rows: one row a level of a block, from the top of the block, with
// the lanes in which its jumper bars run beside them.
import type { BlockView, LevelView, StripView } from "../core/api.ts";

/** What one lane shows beside one row: a bar that passes, or one that lands. */
export interface Lane {
  up: boolean;
  down: boolean;
  lands: boolean;
}

export interface Row {
  block: BlockView;
  level: LevelView;
  first: boolean;
  /** Bars on the panel side of a block that has two sides. */
  panelLanes: (Lane | null)[];
  lanes: (Lane | null)[];
}

export function rowsOf(strip: StripView): Row[] {
  const rows: Row[] = strip.blocks.flatMap((block) =>
    block.levels.map((level, index) => ({ block, level, first: index === 0, panelLanes: [], lanes: [] })),
  );
  const panel = lanesOf(rows, (level) => level.jumper_side === "in");
  const field = lanesOf(rows, (level) => level.jumper_side !== "in");
  rows.forEach((row, index) => {
    row.panelLanes = panel[index] ?? [];
    row.lanes = field[index] ?? [];
  });
  return rows;
}

/** The lanes beside each row, for the bars of the levels that count. */
function lanesOf(rows: Row[], counts: (level: LevelView) => boolean): (Lane | null)[][] {
  const spans = new Map<number, { from: number; to: number }>();
  rows.forEach(({ level }, index) => {
    if (level.jumper === 0 || !counts(level)) return;
    const span = spans.get(level.jumper);
    if (span) span.to = index;
    else spans.set(level.jumper, { from: index, to: index });
  });
  const lanes: (Lane | null)[][] = rows.map(() => []);
  // The first lane that is free where the bar begins; bars come in order.
  const freeFrom: number[] = [];
  for (const [jumper, { from, to }] of spans) {
    let lane = freeFrom.findIndex((row) => row <= from);
    if (lane < 0) lane = freeFrom.length;
    freeFrom[lane] = to + 1;
    for (let index = from; index <= to; index++) {
      const beside = lanes[index];
      if (beside) beside[lane] = { up: index > from, down: index < to, lands: rows[index]?.level.jumper === jumper };
    }
  }
  for (const beside of lanes) {
    for (let lane = 0; lane < freeFrom.length; lane++) beside[lane] ??= null;
  }
  return lanes;
}
