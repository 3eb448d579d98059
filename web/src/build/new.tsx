// The beginning of a panel: its name, and nothing else. A wire list, once core/wirelist
// reads one, comes in by this door: its rows as the first edits of newPanel.
import { useState } from "preact/hooks";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { go } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { newPanel } from "./drawing.ts";
import { Entry } from "./fields.tsx";

export function NewPanel() {
  const [open, setOpen] = useState(false);
  const [name, setName] = useState("");
  const [error, setError] = useState<unknown>();
  const begin = async (): Promise<void> => {
    try {
      const { id } = await newPanel(name.trim());
      go({ at: "build", panel: id });
    } catch (why) {
      setError(why);
    }
  };
  return (
    <>
      <button type="button" class="action" onClick={() => setOpen(true)}>
        <Icon name="pencil" /> {say("page.build-new")}
      </button>
      {open && (
        <Dialog title={say("page.build-new")} sub={say("page.build-new-about")} close={() => setOpen(false)}>
          <form
            class="stack"
            onSubmit={(event) => {
              event.preventDefault();
              void begin();
            }}
          >
            {error !== undefined && <Trouble error={error} />}
            <Entry name={say("page.build-name")} hint={say("page.build-name-hint")} value={name} set={setName} first />
            <button type="submit" class="action" disabled={name.trim() === ""}>
              <Icon name="works" /> {say("page.build-begin")}
            </button>
          </form>
        </Dialog>
      )}
    </>
  );
}
