// Cautions: the first in full view, all of them one tap away.
import { useState } from "preact/hooks";
import type { Text } from "../core/api.ts";
import { say } from "../words.ts";
import { Dialog } from "./dialog.tsx";
import { Icon } from "./icon.tsx";

export function Cautions({ cautions }: { cautions: readonly Text[] }) {
  const [open, setOpen] = useState(false);
  const first = cautions[0];
  if (!first) return null;
  return (
    <>
      <button type="button" class="caution-line" onClick={() => setOpen(true)}>
        <Icon name="caution" />
        <span>{first.text}</span>
        {cautions.length > 1 && <b>{say("page.more", { n: cautions.length - 1 })}</b>}
      </button>
      {open && (
        <Dialog title={say("page.cautions")} close={() => setOpen(false)}>
          <ul class="plain">
            {cautions.map(({ code, text }) => (
              <li key={code + text}>{text}</li>
            ))}
          </ul>
        </Dialog>
      )}
    </>
  );
}
