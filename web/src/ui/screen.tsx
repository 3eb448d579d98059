// The frame of every screen: an engraved plate on top that says where one is,
// what can scroll in the middle, and what the thumb does at the bottom.
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { say } from "../words.ts";
import { Icon } from "./icon.tsx";
import { address, type Route } from "./route.ts";
import { ThemeSwitch } from "./theme.tsx";

interface Props {
  title: string;
  sub?: string | undefined;
  back?: Route;
  /** Instead of going back by the address: what is on top of the screen is left. */
  leave?: () => void;
  foot?: ComponentChildren;
  /** One screen without scrolling; what does not fit is a mistake. */
  fixed?: boolean;
  /** How many steps of a job this screen has taken into account. */
  steps?: number;
  children: ComponentChildren;
}

export function Screen({ title, sub, back, leave, foot, fixed, steps, children }: Props) {
  useEffect(() => {
    document.title = `${title} – Halfsplit`;
  }, [title]);
  return (
    <div class={fixed ? "screen screen-fixed" : "screen"}>
      <header class="plate">
        {back ? (
          <a
            class="plate-side"
            href={address(back)}
            aria-label={say("page.back")}
            onClick={(event) => {
              if (!leave) return;
              event.preventDefault();
              leave();
            }}
          >
            <Icon name="back" />
          </a>
        ) : (
          <span class="plate-side plate-mark" aria-hidden="true">
            <Icon name="mark" />
          </span>
        )}
        <div class="plate-words">
          <h1>{title}</h1>
          {sub && <p>{sub}</p>}
        </div>
        <ThemeSwitch />
      </header>
      <main class="body" data-steps={steps}>
        {children}
      </main>
      {foot && <footer class="foot">{foot}</footer>}
    </div>
  );
}
