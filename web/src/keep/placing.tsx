// Placing a mark on a photo: first where, then which terminal it is.
import { useState } from "preact/hooks";
import { SearchField } from "../panel/searchfield.tsx";
import type { OpenPanel } from "../panel/sessions.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { terminalsFor } from "./terminals.ts";

/** In thousandths of the picture's width and height. */
export interface Spot {
  x: number;
  y: number;
}

/** How far an arrow key moves the spot. */
const STEP = 20;

const moves: Record<string, [number, number]> = {
  ArrowLeft: [-STEP, 0],
  ArrowRight: [STEP, 0],
  ArrowUp: [0, -STEP],
  ArrowDown: [0, STEP],
};

/** Where an arrow key takes the spot; null for any other key. */
export function moved({ x, y }: Spot, key: string): Spot | null {
  const by = moves[key];
  if (!by) return null;
  const within = (at: number): number => Math.min(1000, Math.max(0, at));
  return { x: within(x + by[0]), y: within(y + by[1]) };
}

interface Props {
  open: OpenPanel | undefined;
  cancel: () => void;
  /** "" for a mark that names no terminal. */
  choose: (terminal: string) => void;
}

export function Placing({ open, cancel, choose }: Props) {
  const [asking, setAsking] = useState(false);
  return (
    <div class="foot-row">
      <button type="button" class="second" onClick={cancel}>
        {say("page.not-now")}
      </button>
      <button type="button" class="action" onClick={() => setAsking(true)}>
        {say("page.which-terminal")}
      </button>
      {asking && <Which open={open} close={() => setAsking(false)} choose={choose} />}
    </div>
  );
}

function Which({ open, close, choose }: { open: OpenPanel | undefined; close: () => void; choose: Props["choose"] }) {
  const [typed, setTyped] = useState("");
  const names = open ? terminalsFor(open.opened, typed) : [];
  return (
    <Dialog title={say("page.which-terminal")} close={close}>
      <SearchField name={say("page.search-hint")} typed={typed} type={setTyped} />
      {names.length > 0 && (
        <ul class="choices">
          {names.map((name) => (
            <li key={name}>
              <button type="button" class="choice" onClick={() => choose(name)}>
                <span>
                  <b>{name}</b>
                </span>
                <Icon name="next" />
              </button>
            </li>
          ))}
        </ul>
      )}
      {typed.trim() !== "" && names.length === 0 && <p class="note">{say("page.nothing-found")}</p>}
      <button type="button" class="second" onClick={() => choose("")}>
        {say("page.mark-nameless")}
      </button>
    </Dialog>
  );
}
