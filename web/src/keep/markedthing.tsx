// The sheet of the thing that a mark names.
import { useCondition } from "../panel/condition.tsx";
import { keyOf, type Thing } from "../panel/search.ts";
import type { OpenPanel } from "../panel/sessions.ts";
import { ThingSheet } from "../panel/things.tsx";
import { beginTrace } from "../trace/begin.ts";
import { useAnswer } from "../ui/answer.ts";

interface Props {
  thing: Thing;
  panel: string;
  open: OpenPanel;
  choose: (thing: Thing | null) => void;
}

export function MarkedThing({ thing, panel, open: { session, opened }, choose }: Props) {
  const [at] = useCondition(panel, opened);
  const state = useAnswer((signal) => session.state(at, [], signal), [session, at]);
  return (
    <ThingSheet
      key={keyOf(thing)}
      thing={thing}
      panel={panel}
      session={session}
      opened={opened}
      state={state.value}
      close={() => choose(null)}
      choose={choose}
      dead={(ref) => void beginTrace(panel, opened.name, at, [ref])}
    />
  );
}
