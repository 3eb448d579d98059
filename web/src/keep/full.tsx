// There is no room on the phone: what was entered last is held, and the ways
// out are offered. Shown over every screen, a job too.
import { leaveHeldOut, tryHeldAgain } from "../store/write.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";
import { useHeld } from "./kept.ts";

export function Full() {
  const waiting = useHeld();
  if (waiting === 0) return null;
  return (
    <div role="alert" class="box box-warn full">
      <Icon name="caution" />
      <div>
        <p class="strong">{say("page.full")}</p>
        <p>{waiting === 1 ? say("page.full-held") : say("page.full-held-n", { n: waiting })}</p>
        <div class="foot-row">
          <a class="second" href={address({ at: "deleted" })}>
            <Icon name="bin" /> {say("page.make-room")}
          </a>
          <a class="second" href={address({ at: "kept" })}>
            <Icon name="held" /> {say("page.back-up")}
          </a>
          <button type="button" class="action" onClick={tryHeldAgain}>
            {say("page.try-again")}
          </button>
        </div>
        <button type="button" class="second apart" onClick={leaveHeldOut}>
          <Icon name="close" /> {say("page.leave-out")}
        </button>
      </div>
    </div>
  );
}
