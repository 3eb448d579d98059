// My meter, a figure a row, each with that of a common one beside it.
import type { MeterDatum, MyMeter } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
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

function Figure({ row, change }: RowProps) {
  return (
    <label class="datum">
      <span>
        {row.name}
        <small>{say("page.typical", { value: `${write(row.typical)}${unitOf(row)}`, source: row.source })}</small>
      </span>
      <span class="datum-entry">
        <input
          type="text"
          autocomplete="off"
          value={write(row.value)}
          onChange={(event) => {
            const text = event.currentTarget.value;
            const value = read(text);
            if (text.trim() === "") change(row.key, null);
            else if (value !== null && value >= row.least && value <= row.most) change(row.key, value);
            else event.currentTarget.value = write(row.value);
          }}
        />
        {unitOf(row)}
      </span>
    </label>
  );
}

const unitOf = ({ unit }: MeterDatum): string => (unit === "ohm" ? "Ω" : unit);
