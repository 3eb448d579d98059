// My meter, a figure a row, each with that of a common one beside it.
import { useState } from "preact/hooks";
import type { MeterDatum, MyMeter } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { read, write } from "./prefix.ts";

interface Props {
  meter: MyMeter;
  change: (key: string, value: number | null) => void;
  close: () => void;
}

export function MyMeterSheet({ meter, change, close }: Props) {
  return (
    <Dialog title={say("page.my-meter")} sub={say("page.my-meter-note")} close={close}>
      <ul class="data">
        {meter.rows.map((row) => (
          <li key={row.key}>{row.unit === "" ? <YesNo row={row} change={change} /> : <Figure row={row} change={change} />}</li>
        ))}
      </ul>
    </Dialog>
  );
}

type RowProps = { row: MeterDatum; change: Props["change"] };

function YesNo({ row, change }: RowProps) {
  return (
    <label class="datum">
      <span>{row.name}</span>
      <input
        type="checkbox"
        checked={row.value !== 0}
        onChange={(event) => change(row.key, event.currentTarget.checked ? 1 : 0)}
      />
    </label>
  );
}

/** What is typed and refused stays to be mended, with the reason. */
function Figure({ row, change }: RowProps) {
  const [typed, setTyped] = useState<string | null>(null);
  const [refused, setRefused] = useState("");
  const take = (text: string): string => {
    if (text.trim() === "") {
      change(row.key, null);
      return "";
    }
    const value = read(text);
    if (typeof value === "string") return say(`page.${value}`, { text: text.trim() });
    if (value < row.least || value > row.most) {
      return say("page.out-of-range", { least: withUnit(row, row.least), most: withUnit(row, row.most) });
    }
    change(row.key, value);
    return "";
  };
  return (
    <>
      <label class="datum">
        <span>
          {row.name}
          <small>{say("page.typical", { value: withUnit(row, row.typical), source: row.source })}</small>
        </span>
        <span class="datum-entry">
          <input
            type="text"
            autocomplete="off"
            aria-invalid={refused !== ""}
            value={typed ?? write(row.value)}
            onInput={(event) => setTyped(event.currentTarget.value)}
            onChange={(event) => {
              const why = take(event.currentTarget.value);
              setRefused(why);
              if (why === "") setTyped(null);
            }}
          />
          {unitOf(row)}
        </span>
      </label>
      {refused !== "" && (
        <p class="said-wrong" role="alert">
          <Icon name="caution" /> {refused}
        </p>
      )}
    </>
  );
}

const withUnit = (row: MeterDatum, value: number): string => `${write(value)}${unitOf(row)}`;
const unitOf = ({ unit }: MeterDatum): string => (unit === "ohm" ? "Ω" : unit);
