// A button that asks for files, the project's own where nothing else is said. The same
// file can be chosen twice: between the two it may have been mended. What was sent by a
// phone ends in .txt.
import { useRef } from "preact/hooks";
import { Icon, type IconName } from "./icon.tsx";

interface Props {
  label: string;
  /** What is written on the button where there is little room for it. */
  short?: string;
  icon: IconName;
  disabled?: boolean;
  pictures?: boolean;
  /** The phone's camera is opened at once. */
  camera?: boolean;
  several?: boolean;
  /** The screen's main button. */
  main?: boolean;
  /** Is given what was chosen, one after another. */
  read: (file: File) => Promise<void>;
}

export function FileButton({ label, short = label, icon, disabled = false, pictures = false, camera = false, several = false, main = false, read }: Props) {
  const field = useRef<HTMLInputElement>(null);
  const readAll = async (files: readonly File[]): Promise<void> => {
    for (const file of files) await read(file);
  };
  return (
    <>
      <input
        ref={field}
        class="unseen"
        type="file"
        accept={pictures ? "image/*" : ".json,application/json,.txt,text/plain"}
        multiple={several}
        {...(camera && { capture: "environment" as const })}
        aria-label={label}
        tabIndex={-1}
        onChange={(event) => {
          const input = event.currentTarget;
          void readAll([...(input.files ?? [])]).finally(() => (input.value = ""));
        }}
      />
      <button type="button" class={main ? "action" : "second"} disabled={disabled} onClick={() => field.current?.click()}>
        <Icon name={icon} /> {short}
      </button>
    </>
  );
}
