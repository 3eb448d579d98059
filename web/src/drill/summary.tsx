// How the panel stands: on or off, and what is not as it was.
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Playing } from "./attempt.tsx";

export function Summary({ playing: { state, act, busy } }: { playing: Playing }) {
  const tester = state.offers.some(({ kind }) => kind === "prove-tester");
  return (
    <div class="standing">
      <span class={state.powered ? "grade grade-on" : "grade"}>{say(state.powered ? "page.is-on" : "page.is-off")}</span>
      {state.lifted.map((end) => (
        <span key={end} class="grade grade-weak">
          {say("page.temporary-lifted", { where: end })}
        </span>
      ))}
      {tester && (
        <button type="button" class="second" disabled={busy} onClick={() => void act({ kind: "prove-tester" })}>
          <Icon name="bolt" /> {say("page.prove-my-tester")}
        </button>
      )}
    </div>
  );
}
