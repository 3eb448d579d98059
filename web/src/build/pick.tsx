// Where an end of a wire lands: the strips and the parts, to be touched.
import type { Opened } from "../core/api.ts";
import { noMarks } from "../panel/marks.ts";
import { thingAt } from "../panel/search.ts";
import { Points } from "../meter/points.tsx";

interface Props {
  opened: Opened;
  /** Where the wire begins; "" while that is not said. */
  from: string;
  touch: (point: string) => void;
}

/** After a block the parts come first, after a part the strips: most wires go across. */
export function Pick({ opened, from, touch }: Props) {
  const first = from !== "" && thingAt(opened, from)?.kind === "block" ? "parts" : "strips";
  return <Points key={first} first={first} opened={opened} marks={{ ...noMarks, from }} touch={touch} />;
}
