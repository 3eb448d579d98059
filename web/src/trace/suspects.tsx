// All suspects with their reasons, the likeliest first.
import type { Find } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { say } from "../words.ts";
import { percent } from "./outcome.tsx";

export function SuspectsSheet({ find, close }: { find: Find; close: () => void }) {
  return (
    <Dialog title={say("page.suspects")} sub={find.text} close={close}>
      <ol class="suspects">
        {find.suspects.map((suspect) => (
          <li key={suspect.place + suspect.repair}>
            <div class="suspect-head">
              <span class="marker">{suspect.place}</span>
              <meter min={0} max={1} value={suspect.probability} aria-label={percent(suspect.probability)} />
              <span class="chance">{percent(suspect.probability)}</span>
            </div>
            <p>{suspect.names.join("; ")}</p>
            {suspect.evidence.map(({ text }) => (
              <p class="why" key={text}>
                {text}
              </p>
            ))}
          </li>
        ))}
      </ol>
    </Dialog>
  );
}
