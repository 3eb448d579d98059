// The meter a person has in his hand: what differs from a common one, kept on
// this phone. The core knows the rest.
import { useEffect, useMemo, useState } from "preact/hooks";
import type { MyMeter } from "../core/api.ts";
import { mymeter } from "../core/ask.ts";
import { getSetting, putSetting } from "../store/settings.ts";
import { useAnswer } from "../ui/answer.ts";

const SETTING = "my-meter";

type Own = Readonly<Record<string, number>>;

interface Mine {
  own: Own;
  meter: MyMeter | undefined;
  error: unknown;
  /** A figure of this meter; null for that of a common one. */
  change: (key: string, value: number | null) => void;
}

export function useMyMeter(): Mine {
  const [own, setOwn] = useState<Own | null>(null);
  useEffect(() => {
    void getSetting(SETTING).then((kept) => setOwn(readOwn(kept)));
  }, []);
  const { value, error } = useAnswer(async (signal) => (own ? { own, meter: await mymeter(own, signal) } : undefined), [own]);
  const none = useMemo(() => ({}), []);
  return {
    own: own ?? none,
    meter: value && (value.own === own ? value.meter : asGiven(value.meter, own ?? none)),
    error,
    change: (key, value) => {
      const { [key]: _, ...others } = own ?? {};
      const changed = value === null ? others : { ...others, [key]: value };
      setOwn(changed);
      void putSetting(SETTING, JSON.stringify(changed));
    },
  };
}

/** What was just changed, as it was given, until the core has answered: never the figure before. */
function asGiven({ modes, rows }: MyMeter, own: Own): MyMeter {
  return { modes, rows: rows.map((row) => ({ ...row, value: own[row.key] ?? row.typical })) };
}

/** What cannot be read is a common meter's. */
function readOwn(kept: string | undefined): Own {
  try {
    const value: unknown = JSON.parse(kept ?? "{}");
    if (typeof value !== "object" || value === null) return {};
    return Object.fromEntries(
      Object.entries(value).filter((row): row is [string, number] => Number.isFinite(row[1])),
    );
  } catch {
    return {};
  }
}
