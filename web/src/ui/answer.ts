// An answer that is on its way: what a screen shows while the core computes,
// and a guarantee that an answer to an older question never reaches it.
import { useEffect, useMemo, useState, type Inputs } from "preact/hooks";

export interface Answer<T> {
  value: T | undefined;
  error: unknown;
  busy: boolean;
}

/** What was answered, and to which question. */
interface Told<T> {
  to: object | null;
  value: T | undefined;
  error: unknown;
}

/**
 * Asks again whenever an input changes, and aborts the question before. While
 * the next answer is on its way the last value stays, marked busy from the moment
 * that the inputs are others.
 */
export function useAnswer<T>(ask: (signal: AbortSignal) => Promise<T>, inputs: Inputs): Answer<T> {
  const question = useMemo(() => ({}), inputs);
  const [{ to, value, error }, setTold] = useState<Told<T>>({ to: null, value: undefined, error: undefined });
  useEffect(() => {
    const stop = new AbortController();
    ask(stop.signal).then(
      (answer) => stop.signal.aborted || setTold({ to: question, value: answer, error: undefined }),
      (why: unknown) => stop.signal.aborted || setTold({ to: question, value: undefined, error: why }),
    );
    return () => stop.abort();
  }, [question]);
  const busy = to !== question;
  return { value, error: busy ? undefined : error, busy };
}
