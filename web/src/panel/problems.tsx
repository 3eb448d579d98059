// What the core found wrong or unsaid in a drawing, with places and remedies.
import { useState } from "preact/hooks";
import type { Problem } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  problems: readonly Problem[];
  /** Without places in a file: nobody wrote this one. */
  bare?: boolean;
}

export function Problems({ problems, bare = false }: Props) {
  const [open, setOpen] = useState(false);
  if (problems.length === 0) return null;
  return (
    <>
      <button type="button" class="caution-line" onClick={() => setOpen(true)}>
        <Icon name="wrong" />
        <span>{say("page.problems", { n: problems.length })}</span>
        <Icon name="next" />
      </button>
      {open && (
        <Dialog
          title={say("page.drawing")}
          sub={say("page.problems", { n: problems.length })}
          close={() => setOpen(false)}
        >
          <ol class="suspects">
            {problems.map(({ line, col, path, severity, text, hint }) => (
              <li key={`${line}:${col} ${text}`}>
                <p>
                  <b>{severity}</b> {bare ? "" : line > 0 ? say("page.place", { line, col }) : path}
                </p>
                <p>{text}</p>
                {hint && <p class="why">{hint}</p>}
              </li>
            ))}
          </ol>
        </Dialog>
      )}
    </>
  );
}
