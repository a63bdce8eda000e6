/** Words of a note on one line: breaks become spaces; control characters and marks that turn the writing direction go. */
export function plainWords(text: string): string {
  return text.replace(/\s+/gu, ' ').replace(UNSAFE, '').trim();
}

/** The joiners U+200C and U+200D stay: scripts need them. */
const UNSAFE =
  /[\p{Cc}\p{Cs}\u00ad\u061c\u115f\u1160\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\u3164\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/** A reason as a sentence: with a capital, where it does not begin with a symbol, and a full stop. */
export function sentence(reason: string): string {
  const words = plainWords(reason);
  if (words === '') return '';
  const first = /^\p{Ll}[\p{L}\p{M}'’-]+(?![\p{L}\d_])/u.exec(words)?.[0];
  const isSymbol = first === undefined || GREEK.test(first);
  const start = isSymbol ? words : first[0]!.toUpperCase() + words.slice(1);
  return /[.!?:…]$/.test(start) ? start : `${start}.`;
}

const GREEK =
  /^(?:alpha|beta|gamma|delta|epsilon|zeta|eta|theta|iota|kappa|lambda|mu|nu|xi|omicron|pi|rho|sigma|tau|upsilon|phi|chi|psi|omega)$/;
