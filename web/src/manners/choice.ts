// A choice of this phone, on or off, that must be known at once: a pulse that
// waits for the disk comes too late. Kept beside the theme, not in the backup:
// another phone has another motor.
import { useEffect, useState } from "preact/hooks";

export interface Choice {
  get(): boolean;
  set(on: boolean): void;
  /** Whether it is on, kept up to date. */
  use(): boolean;
}

/** A choice that is on until somebody switches it off. */
export function choice(name: string): Choice {
  const key = `halfsplit-${name}`;
  const watchers = new Set<() => void>();
  const get = (): boolean => localStorage.getItem(key) !== "off";
  return {
    get,
    set(on) {
      localStorage.setItem(key, on ? "on" : "off");
      for (const watcher of watchers) watcher();
    },
    use() {
      const [on, setOn] = useState(get);
      useEffect(() => {
        const look = (): void => setOn(get());
        watchers.add(look);
        look(); // it may have been switched before this listened
        addEventListener("storage", look); // another tab
        return () => {
          watchers.delete(look);
          removeEventListener("storage", look);
        };
      }, []);
      return on;
    },
  };
}
