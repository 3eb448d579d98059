// The drawing a screen works on. Taps that come faster than the core answers
// wait for each other; none is lost.
import { useEffect, useRef, useState } from "preact/hooks";
import type { DraftEdit } from "../core/api.ts";
import { ofPanel } from "../keep/kept.ts";
import { onChange } from "../store/changes.ts";
import { replace } from "../ui/route.ts";
import { openDrawing, takeBack, takeStep, type Drawing } from "./drawing.ts";

/** Carries out a step; false where the core refused it, which is then shown. */
export type Act = (...step: DraftEdit[]) => Promise<boolean>;

export interface InHand {
  drawing: Drawing | undefined;
  error: unknown;
  /** What the last step did, in the core's words. */
  made: string;
  act: Act;
  undo: () => void;
  /** Shows no error any more. */
  forget: () => void;
}

export function useDrawing(panel: string): InHand {
  const [drawing, setDrawing] = useState<Drawing>();
  const [error, setError] = useState<unknown>();
  const [made, setMade] = useState("");
  const now = useRef<Drawing | null>(null);
  const last = useRef<Promise<unknown>>(Promise.resolve());

  const after = (next: (drawing: Drawing) => Promise<Drawing>): Promise<boolean> => {
    const done = last.current.then(async () => {
      const before = now.current;
      if (!before) return false;
      try {
        const next_drawing = await next(before);
        now.current = next_drawing;
        setError(undefined);
        setDrawing(next_drawing);
        // A demo panel was copied, or another tab drew on this one: go on beside it.
        if (next_drawing.id !== before.id) replace({ at: "build", panel: next_drawing.id });
        return true;
      } catch (why) {
        setError(why);
        return false;
      }
    });
    last.current = done;
    return done;
  };

  useEffect(() => {
    if (now.current?.id === panel) return;
    const open = async (): Promise<void> => {
      try {
        now.current = await openDrawing(panel);
        setDrawing(now.current);
      } catch (why) {
        setError(why);
      }
    };
    last.current = last.current.then(open);
  }, [panel]);
  useEffect(
    () =>
      onChange((change, elsewhere) => {
        if (!elsewhere || !ofPanel(panel)(change)) return;
        void after((before) => openDrawing(before.id));
      }),
    [panel],
  );
  return {
    drawing,
    error,
    made,
    act: (...step) =>
      after(async (before) => {
        const next = await takeStep(before, step);
        setMade(next.edited.made.map(({ text }) => text).join(" "));
        return next;
      }),
    undo: () =>
      void after(async (before) => {
        if (before.drawn.steps.length === 0) return before;
        const next = await takeBack(before);
        setMade("");
        return next;
      }),
    forget: () => setError(undefined),
  };
}
