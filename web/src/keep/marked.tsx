// A picture with its marks on it, and the same marks as a list.
import type { Mark, SavedPhoto } from "../store/schema.ts";
import { RemoveButton } from "./removed.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { moved, type Spot } from "./placing.tsx";
import { useAddress } from "./preview.tsx";

interface Props {
  data: Blob;
  name: string;
  photo: SavedPhoto;
  /** A mark that is being placed: taps and arrow keys move it. */
  spot: Spot | null;
  move: (spot: Spot) => void;
  choose: (mark: Mark) => void;
}

export function MarkedPicture({ data, name, photo: { width, height, marks }, spot, move, choose }: Props) {
  const url = useAddress(data);
  const tapped = (event: MouseEvent & { currentTarget: HTMLElement }): void => {
    if (!spot) return;
    const box = event.currentTarget.getBoundingClientRect();
    const part = (at: number, from: number, size: number): number =>
      Math.min(1000, Math.max(0, Math.round((1000 * (at - from)) / size)));
    move({ x: part(event.clientX, box.left, box.width), y: part(event.clientY, box.top, box.height) });
  };
  return (
    <div class="picture" data-placing={spot !== null} onClick={tapped}>
      {url && <img src={url} alt={name} width={width} height={height} />}
      {marks.map((mark, index) => (
        <button
          key={index}
          type="button"
          class="pin"
          style={at(mark)}
          disabled={spot !== null}
          aria-label={nameOf(mark, index)}
          onClick={() => choose(mark)}
        >
          <span>{index + 1}</span>
        </button>
      ))}
      {spot && (
        <button
          type="button"
          class="pin pin-new"
          style={at(spot)}
          aria-label={say("page.spot")}
          ref={(button) => button?.focus({ preventScroll: true })}
          onKeyDown={(event) => {
            const next = moved(spot, event.key);
            if (!next) return;
            event.preventDefault();
            move(next);
          }}
        >
          <span>{marks.length + 1}</span>
        </button>
      )}
    </div>
  );
}

/** The page's policy allows positions set by script, and only these. */
const at = ({ x, y }: Spot): Record<string, string> => ({ left: `${x / 10}%`, top: `${y / 10}%` });

const nameOf = ({ terminal }: Mark, index: number): string =>
  terminal ? say("page.mark-named", { n: index + 1, terminal }) : say("page.mark-n", { n: index + 1 });

interface ListProps {
  marks: readonly Mark[];
  choose: (mark: Mark) => void;
  remove: (mark: Mark, index: number) => void;
}

export function MarkList({ marks, choose, remove }: ListProps) {
  return (
    <ol class="stack">
      {marks.map((mark, index) => (
        <li key={index} class="card-row">
          <button type="button" class="choice pin-row" disabled={mark.terminal === ""} onClick={() => choose(mark)}>
            <span class="pin-number">{index + 1}</span>
            <b>{mark.terminal || say("page.mark-nameless")}</b>
            {mark.terminal && <Icon name="next" />}
          </button>
          <RemoveButton label={say("page.remove", { title: nameOf(mark, index) })} remove={() => remove(mark, index)} />
        </li>
      ))}
    </ol>
  );
}
