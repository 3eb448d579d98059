// The ways out of the phone: what it offers for sending, a file, a link.
import { useState } from "preact/hooks";
import { download } from "../ui/download.ts";
import { Icon } from "../ui/icon.tsx";
import { canSend, send, thoughtBetter } from "../ui/send.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { fileName, type HandOver } from "./handover.ts";

const toFile = ({ name, document }: HandOver): File =>
  new File([document], fileName(name), { type: "application/json" });

/** What came of the last tap. */
export type Done = { said: string; copy?: string } | { error: unknown };

interface Props {
  over: HandOver;
  done: (what: Done | null) => void;
}

export function Doors({ over, done }: Props) {
  const [sendable] = useState(canSend);
  const handOn = async (): Promise<void> => {
    done(null);
    try {
      const file = await send(toFile(over), over.name);
      done({ said: say("page.sent", { file: file.name }) });
    } catch (error) {
      if (thoughtBetter(error)) return;
      done({ error: new Error(say("page.not-sent")) });
    }
  };
  const save = (): void => {
    const file = toFile(over);
    download(file);
    done({ said: say("page.saved-file", { file: file.name }) });
  };
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(over.link);
      done({ said: say("page.link-copied") });
    } catch {
      // Without a clipboard (no https, or forbidden) the link is there to be taken by hand.
      done({ said: say("page.link-take"), copy: over.link });
    }
  };
  return (
    <div class="foot-row">
      {sendable && (
        <button type="button" class="action" onClick={() => void handOn()}>
          <Icon name="send" /> {say("page.send")}
        </button>
      )}
      <button type="button" class="second" onClick={save}>
        <Icon name="held" /> {say("page.save-file")}
      </button>
      {over.link !== "" && (
        <button type="button" class="second" onClick={() => void copy()}>
          <Icon name="link" /> {say("page.copy-link")}
        </button>
      )}
    </div>
  );
}

/** What came of it, read out. */
export function WhatCame({ done }: { done: Done | null }) {
  return (
    <>
      <div role="status">
        {done && "said" in done && (
          <div class="box">
            <Icon name="works" />
            <div>
              <p class="strong">{done.said}</p>
              {done.copy !== undefined && (
                <textarea
                  readOnly
                  rows={3}
                  aria-label={say("page.the-link")}
                  value={done.copy}
                  onFocus={(event) => event.currentTarget.select()}
                />
              )}
            </div>
          </div>
        )}
      </div>
      {done && "error" in done && <Trouble error={done.error} />}
    </>
  );
}
