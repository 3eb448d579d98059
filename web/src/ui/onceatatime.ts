/** Makes of an action one that a second tap does not start again while it is under way. */
export function onceAtATime<A extends unknown[]>(act: (...args: A) => Promise<void>): (...args: A) => Promise<void> {
  let underway = false;
  return async (...args) => {
    if (underway) return;
    underway = true;
    try {
      await act(...args);
    } finally {
      underway = false;
    }
  };
}
