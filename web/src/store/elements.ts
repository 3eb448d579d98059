// Reads a JSON document of lists, however large, one element at a time:
// {"format": "…", "version": 1, "panels": [{…}, {…}], "jobs": [{…}]}
// Only the element at hand is ever in memory, so that a backup full of photos
// can be read by a phone that could not hold it.

/** A value directly in the document, or one element of a list directly in it. */
export interface Element {
  name: string;
  value: unknown;
}

/** The document is not JSON of the expected form; at is in characters. */
export class BadDocument extends Error {
  override name = "BadDocument";
  readonly at: number;
  constructor(at: number) {
    super(`not readable at character ${at + 1}`);
    this.at = at;
  }
}

/** No record is longer; a file that goes on and on is none of ours. */
const LONGEST = 64 * 1024 * 1024;

/** Yields the elements in the order of the document. Errors: BadDocument. */
export async function* elements(chunks: AsyncIterable<string>): AsyncGenerator<Element> {
  let depth = 0;
  let inString = false;
  let escaped = false;
  let name = "";
  let inList = false; // of the document's own lists
  let piece: string[] = []; // what belongs to the element at hand
  let length = 0;
  let at = 0;
  let ended = false;

  const take = (): string => {
    const text = piece.join("").trim();
    piece = [];
    length = 0;
    return text;
  };
  const parsed = (text: string): unknown => {
    try {
      return JSON.parse(text);
    } catch {
      throw new BadDocument(at);
    }
  };
  /** What stands before a comma or the end of the list or document. */
  const finish = (): Element | null => {
    const text = take();
    if (text === "") return null;
    if (inList) return { name, value: parsed(text) };
    const found = /^("(?:[^"\\]|\\.)*")\s*:\s*([^]+)$/.exec(text);
    if (!found) throw new BadDocument(at);
    return { name: String(parsed(found[1] ?? "")), value: parsed(found[2] ?? "") };
  };

  for await (const chunk of chunks) {
    let from = 0; // where in this chunk the part begins that is not yet in piece
    const keep = (to: number): void => {
      if (to > from) piece.push(chunk.slice(from, to));
      length += Math.max(0, to - from);
      if (length > LONGEST) throw new BadDocument(at);
    };
    for (let i = 0; i < chunk.length; i++, at++) {
      const c = chunk.charCodeAt(i);
      if (inString) {
        if (escaped) escaped = false;
        else if (c === BACKSLASH) escaped = true;
        else if (c === QUOTE) inString = false;
        continue;
      }
      const top = inList ? 2 : 1; // the depth at which elements are told apart
      if (c === QUOTE) {
        inString = true;
      } else if (c === OPEN_BRACE || c === OPEN_BRACKET) {
        if (depth === 0) {
          if (c !== OPEN_BRACE || ended || chunk.slice(from, i).trim() !== "") throw new BadDocument(at);
          from = i + 1;
        } else if (depth === 1 && c === OPEN_BRACKET) {
          keep(i);
          const found = /^("(?:[^"\\]|\\.)*")\s*:$/.exec(take());
          if (!found) throw new BadDocument(at);
          name = String(parsed(found[1] ?? ""));
          inList = true;
          from = i + 1;
        }
        depth++;
      } else if (c === CLOSE_BRACE || c === CLOSE_BRACKET) {
        if (depth === top) {
          if ((c === CLOSE_BRACKET) !== inList) throw new BadDocument(at);
          keep(i);
          const element = finish();
          if (element) yield element;
          from = i + 1;
          if (inList) inList = false;
          else ended = true;
        }
        depth--;
        if (depth < 0) throw new BadDocument(at);
      } else if (c === COMMA && depth === top) {
        keep(i);
        const element = finish();
        if (element) yield element;
        from = i + 1;
      }
    }
    if (depth > 0) keep(chunk.length);
    else if (chunk.slice(from).trim() !== "") throw new BadDocument(at);
  }
  if (!ended) throw new BadDocument(at);
}

const QUOTE = 34;
const BACKSLASH = 92;
const OPEN_BRACE = 123;
const CLOSE_BRACE = 125;
const OPEN_BRACKET = 91;
const CLOSE_BRACKET = 93;
const COMMA = 44;
