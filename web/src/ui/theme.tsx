// Light for glare, dark for switch rooms, one tap apart.
import { useEffect, useState } from "preact/hooks";
import { say } from "../words.ts";
import { Icon } from "./icon.tsx";

type Theme = "light" | "dark";

// Kept where it can be read before the first paint.
const KEY = "halfsplit-theme";

function chosen(): Theme {
  const kept = localStorage.getItem(KEY);
  if (kept === "light" || kept === "dark") return kept;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

export function applyTheme(theme: Theme = chosen()): void {
  document.documentElement.dataset["theme"] = theme;
}

export function ThemeSwitch() {
  const [theme, setTheme] = useState(chosen);
  useEffect(() => applyTheme(theme), [theme]);
  const other = theme === "light" ? "dark" : "light";
  return (
    <button
      type="button"
      class="plate-side"
      data-theme-switch
      aria-label={say(other === "dark" ? "page.theme-dark" : "page.theme-light")}
      onClick={() => {
        localStorage.setItem(KEY, other);
        setTheme(other);
      }}
    >
      <Icon name={other === "dark" ? "moon" : "sun"} />
    </button>
  );
}
