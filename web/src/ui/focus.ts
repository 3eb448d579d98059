// Where the focus goes when what had it is gone: to the heading of what is there
// now, which is how it is read out, once.
import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";

export const lost = (): boolean => document.activeElement === null || document.activeElement === document.body;

/** To where the focus was, if nothing has it now; to the screen's name if that is gone. */
export function giveBack(to: Element | null): void {
  if (!lost()) return;
  const there = to instanceof HTMLElement && to.isConnected && to !== document.body ? to : document.querySelector("h1");
  there?.focus({ preventScroll: true });
}

/**
 * For the heading of a new question, which begins at the top of the screen, or for
 * what has come about within one. Whoever has gone on already is left alone.
 */
export function useFocus<E extends HTMLElement>(where: "top" | "within" | "nowhere" = "top"): RefObject<E | null> {
  const heading = useRef<E>(null);
  useEffect(() => {
    if (!lost() && document.activeElement?.localName !== "h1") return;
    if (where === "nowhere") return;
    if (where === "top") scrollTo(0, 0);
    heading.current?.focus({ preventScroll: where === "top" });
  }, []);
  return heading;
}
