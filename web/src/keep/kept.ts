// What a screen shows of the phone's memory, read again whenever this tab or
// another has written.
import { useEffect, useState, type Inputs } from "preact/hooks";
import { onChange, type Change } from "../store/changes.ts";
import { watchHeld } from "../store/write.ts";
import { useAnswer, type Answer } from "../ui/answer.ts";

/** As useAnswer; concerns says which changes are a reason to read again. */
export function useKept<T>(
  ask: () => Promise<T>,
  inputs: Inputs,
  concerns: (change: Change) => boolean = () => true,
): Answer<T> {
  const [round, setRound] = useState(0);
  useEffect(() => onChange((change) => concerns(change) && setRound((before) => before + 1)), inputs);
  return useAnswer(ask, [...inputs, round]);
}

/** How many writes wait for room. */
export function useHeld(): number {
  const [waiting, setWaiting] = useState(0);
  useEffect(() => watchHeld(setWaiting), []);
  return waiting;
}

/** Whether a change may be about this panel itself. */
export const ofPanel =
  (panel: string) =>
  (change: Change): boolean =>
    change.kind === "all" || (change.kind === "panel" && change.id === panel);
