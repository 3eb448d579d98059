// The frame of every screen: an engraved plate on top that says where one is,
// what can scroll in the middle, and what the thumb does at the bottom.
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { useAwake } from "../manners/awake.ts";
import { say } from "../words.ts";
import { lost } from "./focus.ts";
import { Icon } from "./icon.tsx";
import { address, type Route } from "./route.ts";
import { ThemeSwitch } from "./theme.tsx";

interface Props {
  title: string;
  /** The title can be touched: what that does, and the word for it. */
  touch?: { word: string; tap: () => void };
  sub?: string | undefined;
  back?: Route;
  /** Instead of going back by the address: what is on top of the screen is left. */
  leave?: () => void;
  foot?: ComponentChildren;
  /** One screen without scrolling; what does not fit is a mistake. */
  fixed?: boolean;
  /** Somebody holds two probes: the phone's screen stays on. */
  awake?: boolean;
  /** How many steps of a job this screen has taken into account. */
  steps?: number;
  children: ComponentChildren;
}

/** The first screen leaves the focus at the top of the page, where the browser puts it. */
let begun = false;

export function Screen({ title, touch, sub, back, leave, foot, fixed, awake = false, steps, children }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const content = useRef<HTMLElement>(null);
  const actions = useRef<HTMLElement>(null);
  useAwake(awake);
  useEffect(() => {
    document.title = `${title} – Halfsplit`;
  }, [title]);
  useEffect(() => {
    // What was touched to come here is gone: the next word is the screen's name.
    if (begun && lost()) heading.current?.focus({ preventScroll: true });
    begun = true;
  }, []);
  return (
    <div class={fixed ? "screen screen-fixed" : "screen"}>
      <div class="skips">
        <button type="button" class="skip" onClick={() => content.current?.focus()}>
          {say("page.skip-to-content")}
        </button>
        {foot && (
          <button type="button" class="skip" onClick={() => actions.current?.focus()}>
            {say("page.skip-to-actions")}
          </button>
        )}
      </div>
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
          <h1 ref={heading} tabIndex={-1}>
            {touch ? (
              <button type="button" class="plate-title" onClick={touch.tap}>
                <span>{title}</span> <Icon name="pencil" />
                <span class="unseen">{touch.word}</span>
              </button>
            ) : (
              title
            )}
          </h1>
          {sub && <p>{sub}</p>}
        </div>
        <ThemeSwitch />
      </header>
      <main ref={content} tabIndex={-1} class="body" data-steps={steps}>
        {children}
      </main>
      {foot && (
        <footer ref={actions} tabIndex={-1} class="foot">
          {foot}
        </footer>
      )}
    </div>
  );
}
