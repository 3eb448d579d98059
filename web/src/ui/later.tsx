// A screen whose code is fetched when it is first gone to; offline it comes from
// what the phone has kept.
import type { ComponentType } from "preact";
import { useAnswer } from "./answer.ts";
import { Screen } from "./screen.tsx";
import { Trouble } from "./trouble.tsx";
import { say } from "../words.ts";

type LaterProps<P> = P & { load: () => Promise<ComponentType<P>> };

export function Later<P extends object>({ load, ...props }: LaterProps<P>) {
  const { value, error } = useAnswer(async () => ({ Loaded: await load() }), [load]);
  if (value) return <value.Loaded {...(props as unknown as P)} />;
  return (
    <Screen title={say("page.opening")} back={{ at: "panels" }}>
      {error !== undefined && <Trouble error={error} />}
    </Screen>
  );
}
