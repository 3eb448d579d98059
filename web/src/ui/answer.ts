// An answer that is on its way: what a screen shows while the core computes,
// and a guarantee that an answer to an older question never reaches it.
import { useEffect, useState, type Inputs } from "preact/hooks";

export interface Answer<T> {
  value: T | undefined;
  error: unknown;
  busy: boolean;
}

/**
 * Asks again whenever an input changes, and aborts the question before. While
 * the next answer is on its way the last value stays, marked busy.
 */
export function useAnswer<T>(ask: (signal: AbortSignal) => Promise<T>, inputs: Inputs): Answer<T> {
  const [answer, setAnswer] = useState<Answer<T>>({ value: undefined, error: undefined, busy: true });
  useEffect(() => {
    const stop = new AbortController();
    setAnswer((last) => ({ value: last.value, error: undefined, busy: true }));
    ask(stop.signal).then(
      (value) => stop.signal.aborted || setAnswer({ value, error: undefined, busy: false }),
      (error: unknown) => stop.signal.aborted || setAnswer({ value: undefined, error, busy: false }),
    );
    return () => stop.abort();
  }, inputs);
  return answer;
}
