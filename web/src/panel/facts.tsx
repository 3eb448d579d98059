// What is on a thing: its points with their volts, and where its wires go. Each
// wire and each far end is one tap away, so that a circuit can be walked along.
import type { Opened, WireEnd } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { thingAt, type Thing } from "./search.ts";

interface Props {
  thing: Thing;
  opened: Opened;
  volts: ReadonlyMap<string, string>;
  choose: (thing: Thing) => void;
}

export function Facts({ thing, opened, volts, choose }: Props) {
  const toWire = (no: string): void => {
    const wire = opened.wires.find((candidate) => candidate.no === no);
    if (wire) choose({ kind: "wire", wire });
  };
  return (
    <>
      {thing.kind === "part" && thing.part.process && <p class="box">{thing.part.process}</p>}
      <ul class="facts">
        {pointsOf(thing).map(({ point, wires }) => (
          <li key={point}>
            <p class="fact">
              <b>{point}</b>
              <span class="figure">{volts.has(point) && say("page.volts", { volts: volts.get(point) ?? "" })}</span>
            </p>
            {wires.map((wire) => (
              <button key={wire.no} type="button" class="choice" onClick={() => toWire(wire.no)}>
                <span>
                  <b>{wire.no}</b> {say("page.to", { other: [wire.other, wire.other_tag].filter(Boolean).join(" ") })}{" "}
                  {wire.colour}
                </span>
                <Icon name="next" />
              </button>
            ))}
            {thing.kind === "wire" && <FarEnd point={point} opened={opened} choose={choose} />}
          </li>
        ))}
      </ul>
    </>
  );
}

function FarEnd({ point, opened, choose }: { point: string; opened: Opened; choose: (thing: Thing) => void }) {
  const at = thingAt(opened, point);
  if (!at) return null;
  const label = at.kind === "block" ? at.block.label : at.kind === "part" ? at.part.tag || at.part.label : "";
  return (
    <button type="button" class="choice" onClick={() => choose(at)}>
      <span>{say("page.lands-on", { thing: label || point })}</span>
      <Icon name="next" />
    </button>
  );
}

function pointsOf(thing: Thing): { point: string; wires: WireEnd[] }[] {
  switch (thing.kind) {
    case "block":
      return thing.block.levels.flatMap(({ in: inside, out, in_wires, out_wires }) =>
        inside === out
          ? [{ point: inside, wires: [...in_wires, ...out_wires] }]
          : [
              { point: inside, wires: in_wires },
              { point: out, wires: out_wires },
            ],
      );
    case "part":
      return thing.part.terminals;
    case "wire":
      return [thing.wire.from, thing.wire.to].map((point) => ({ point, wires: [] }));
  }
}
