// One field to find a thing by what is written on it.
import { Icon } from "../ui/icon.tsx";

interface Props {
  name: string;
  typed: string;
  type: (text: string) => void;
}

export function SearchField({ name, typed, type }: Props) {
  return (
    <label class="find">
      <Icon name="search" />
      <span class="unseen">{name}</span>
      <input
        type="search"
        placeholder={name}
        value={typed}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        onInput={(event) => type(event.currentTarget.value)}
      />
    </label>
  );
}
