/** Something that may be typed at a place. */
export interface Offer {
  readonly label: string;
  readonly kind: 'record' | 'claim' | 'name' | 'value' | 'unit' | 'block' | 'word' | 'snippet';
  /** A few words beside the label. */
  readonly detail: string | null;
  readonly insert: string;
  /** Whether `insert` has places to fill in (`${1:…}`); `plain` is for editors that know none. */
  readonly isSnippet: boolean;
  /** What is offered first has the lowest. */
  readonly rank: number;
  /** What is compared with what was typed, where that is not the label. */
  readonly filter: string | null;
  readonly about: About | null;
}

/** What is told about an offer when somebody looks at it. */
export interface About {
  readonly kind: 'term' | 'instrument' | 'rule';
  readonly name: string;
}

/** An offer of a word as it stands. */
export function offer(
  kind: Offer['kind'],
  label: string,
  rank: number,
  more: Partial<Omit<Offer, 'kind' | 'label' | 'rank'>> = {},
): Offer {
  const plain = { detail: null, insert: label, isSnippet: false, filter: null, about: null };
  return { kind, label, rank, ...plain, ...more };
}

/** A place to fill in with one of several words. */
export function snippetChoice(words: readonly string[]): string {
  return `\${1|${words.map(word => word.replace(/[\\,|]/g, '\\$&')).join(',')}|}`;
}

/** A snippet with its places filled in as they stand, for editors that know no snippets, and for checking. */
export function withoutPlaces(snippet: string): string {
  return snippet
    .replace(/\$\{\d+\|((?:[^\\,|]|\\.)*)(?:,(?:[^\\|]|\\.)*)?\|\}/g, (_, first: string) => unescaped(first))
    .replace(/\$\{\d+:((?:[^\\}]|\\.)*)\}/g, (_, text: string) => unescaped(text))
    .replace(/\$\d+/g, '')
    .replace(/\\([\\$}])/g, '$1');
}

function unescaped(text: string): string {
  return text.replace(/\\([\\$},|])/g, '$1');
}
