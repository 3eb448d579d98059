// Keeps the screen on while something is shown to a camera.
import { useEffect } from "preact/hooks";

export function useAwake(): void {
  useEffect(() => {
    let gone = false;
    let lock: WakeLockSentinel | undefined;
    const hold = async (): Promise<void> => {
      if (document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
      try {
        const held = await navigator.wakeLock.request("screen");
        if (gone) await held.release();
        else lock = held;
      } catch {
        // An empty battery may refuse: then the screen goes dark as it always does.
      }
    };
    void hold();
    document.addEventListener("visibilitychange", hold);
    return () => {
      gone = true;
      document.removeEventListener("visibilitychange", hold);
      void lock?.release();
    };
  }, []);
}
