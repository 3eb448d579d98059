// The codes of one document, one after another, for another phone's camera.
import { useEffect, useMemo, useState } from "preact/hooks";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { versionFor } from "./modules.ts";
import { QR } from "./qr.tsx";

/**
 * Codes a second. Four changes are two flashes, below the three a second that
 * WCAG 2.2, 2.3.1 permits.
 */
const speeds = [1, 2, 3, 4] as const;
const USUAL = 2;

export function Codes({ parts }: { parts: readonly string[] }) {
  const version = useMemo(() => versionFor(parts), [parts]);
  const [index, setIndex] = useState(0);
  const [speed, setSpeed] = useState<number>(USUAL);
  const [playing, setPlaying] = useState(() => !matchMedia("(prefers-reduced-motion: reduce)").matches);
  const several = parts.length > 1;
  useEffect(() => setIndex(0), [parts]);
  useEffect(() => {
    if (!playing || !several) return;
    const next = setInterval(() => setIndex((now) => (now + 1) % parts.length), 1000 / (speeds[speed] ?? 1));
    return () => clearInterval(next);
  }, [playing, speed, parts]);

  const step = (by: number): void => {
    setPlaying(false);
    setIndex((now) => (now + by + parts.length) % parts.length);
  };
  const count = say("page.code-of", { n: index + 1, count: parts.length });
  return (
    <div class="codes" data-code={index + 1}>
      <QR text={parts[index] ?? ""} version={version} label={count} />
      {several && (
        <>
          {/* Read out only when stepped by hand: a loop would never stop talking. */}
          <p class="codes-count" aria-live={playing ? "off" : "polite"}>
            {count}
          </p>
          <div class="foot-row codes-hand">
            <button type="button" class="second" aria-label={say("page.code-before")} onClick={() => step(-1)}>
              <Icon name="back" />
            </button>
            <button type="button" class="second" onClick={() => setPlaying(!playing)}>
              <Icon name={playing ? "pause" : "play"} /> {say(playing ? "page.codes-stop" : "page.codes-play")}
            </button>
            <button type="button" class="second" aria-label={say("page.code-after")} onClick={() => step(1)}>
              <Icon name="next" />
            </button>
          </div>
          <div class="codes-speed">
            <button type="button" class="second" disabled={speed === 0} onClick={() => setSpeed(speed - 1)}>
              {say("page.slower")}
            </button>
            <span>{say("page.codes-speed", { n: speeds[speed] ?? 1 })}</span>
            <button type="button" class="second" disabled={speed === speeds.length - 1} onClick={() => setSpeed(speed + 1)}>
              {say("page.faster")}
            </button>
          </div>
        </>
      )}
    </div>
  );
}
