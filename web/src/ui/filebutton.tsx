// A button that asks for one of the project's own files. The same file can be
// chosen twice: between the two it may have been mended. What was sent by a phone
// ends in .txt.
import { useRef } from "preact/hooks";
import { Icon, type IconName } from "./icon.tsx";

interface Props {
  label: string;
  /** What is written on the button where there is little room for it. */
  short?: string;
  icon: IconName;
  disabled?: boolean;
  read: (file: File) => Promise<void>;
}

export function FileButton({ label, short = label, icon, disabled = false, read }: Props) {
  const field = useRef<HTMLInputElement>(null);
  return (
    <>
      <input
        ref={field}
        class="unseen"
        type="file"
        accept=".json,application/json,.txt,text/plain"
        aria-label={label}
        tabIndex={-1}
        onChange={(event) => {
          const input = event.currentTarget;
          const file = input.files?.[0];
          if (file) void read(file).finally(() => (input.value = ""));
        }}
      />
      <button type="button" class="second" disabled={disabled} onClick={() => field.current?.click()}>
        <Icon name={icon} /> {short}
      </button>
    </>
  );
}
