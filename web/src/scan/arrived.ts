// Until what comes in is looked at first: a panel is kept and opened.
import { PanelSession } from "../core/ask.ts";
import { addPanel } from "../store/panels.ts";
import { go } from "../ui/route.ts";

export async function incoming(text: string, name: string): Promise<void> {
  const opened = await new PanelSession({ name, text }).open();
  const saved = await addPanel({ title: opened.name, text });
  go({ at: "panel", panel: saved.id, view: "strips" });
}
