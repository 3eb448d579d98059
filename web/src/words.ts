// The page's sentences. They live with the core's, one catalogue a language,
// so that a translator finds all of them in one place.
import en from "../../core/words/page.en.json";

export type Code = keyof typeof en;

/** The sentence for a code; {name} is replaced by the argument of that name. */
export function say(code: Code, args: Readonly<Record<string, string | number>> = {}): string {
  return en[code].replace(/\{(\w+)\}/g, (hole, name: string) => {
    const value = args[name];
    return value === undefined ? hole : String(value);
  });
}
