// What came in, and what becomes of it. Nothing here is kept, taken over or
// thrown away before the person says so.
import { useKept } from "../keep/kept.ts";
import { getArrival } from "../store/arrivals.ts";
import { addPanel } from "../store/panels.ts";
import type { SavedArrival } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { replace } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { say } from "../words.ts";

export function ReceivedScreen({ id }: { id: string }) {
  const { value, busy } = useKept(() => getArrival(id), [id]);
  return (
    <Screen title={value?.title ?? say("page.received")} sub={value && say("page.received")} back={{ at: "panels" }}>
      {value && <New arrival={value} />}
      {!value && <p class="wait">{say(busy ? "page.reading-drawing" : "page.received-gone")}</p>}
    </Screen>
  );
}

function New({ arrival: { title, name, text, received } }: { arrival: SavedArrival }) {
  const keep = async (): Promise<void> => {
    const { id } = await addPanel({ title, text });
    replace({ at: "panel", panel: id, view: "strips" });
  };
  return (
    <section class="stack">
      <p class="note">{say("page.received-as", { name, when: when.format(new Date(received)) })}</p>
      <button type="button" class="action" onClick={() => void keep()}>
        <Icon name="held" /> {say("page.received-keep")}
      </button>
    </section>
  );
}
