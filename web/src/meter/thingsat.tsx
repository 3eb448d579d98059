// For a clamp, which wire; for milliamps in series, where the circuit is opened:
// a wire lifted off, or the lever or fuse of the block.
import type { MeterMode, Opened } from "../core/api.ts";
import { endAt, wiresAt } from "../panel/ends.ts";
import { sideless } from "../panel/point.ts";
import { thingAt } from "../panel/search.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  point: string;
  probes: MeterMode["probes"];
  opened: Opened;
  choose: (thing: string) => void;
  close: () => void;
}

export function ThingsAt({ point, probes, opened, choose, close }: Props) {
  const wires = wiresAt(opened, point);
  const clamp = probes === "wire";
  const cut = clamp ? null : cutAt(opened, point);
  return (
    <Dialog title={point} sub={say(clamp ? "page.pick-wire" : "page.pick-break")} close={close}>
      {wires.length === 0 && cut === null && <p>{say("page.no-wire-here")}</p>}
      <ul class="choices">
        {wires.map((wire) => (
          <li key={wire.no}>
            <button
              type="button"
              class="choice"
              onClick={() => choose(clamp ? wire.no : endAt(opened, wire.no, point))}
            >
              <span>
                <b>{wire.no}</b> {say("page.to", { other: [wire.other, wire.other_tag].filter(Boolean).join(" ") })}{" "}
                {wire.colour}
              </span>
              <Icon name="next" />
            </button>
          </li>
        ))}
        {cut !== null && (
          <li>
            <button type="button" class="choice" onClick={() => choose(cut)}>
              <span>
                <b>{cut}</b> {say("page.across-cut")}
              </span>
              <Icon name="next" />
            </button>
          </li>
        )}
      </ul>
    </Dialog>
  );
}

/** What can be opened between the two sides of the block's level. */
function cutAt(opened: Opened, point: string): string | null {
  const thing = thingAt(opened, point);
  if (thing?.kind !== "block") return null;
  const level = thing.block.levels.find(({ in: inside, out }) => point === inside || point === out);
  return level?.cut ? sideless(level.in) : null;
}
