/**
 * What must never reach a terminal as it is: control characters (C0, DEL, C1), line and paragraph
 * separators, marks that turn the writing direction, invisible characters, halves of a surrogate pair.
 * The joiners U+200C and U+200D stay: scripts and signs need them.
 */
const UNSAFE =
  /[\p{Cc}\p{Cs}\u00ad\u061c\u115f\u1160\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\u3164\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/** A text from a note or a path with everything that could trick a terminal written out, as in `<U+202E>`. */
export function escapeControls(text: string): string {
  return text.replace(UNSAFE, writtenOut);
}

function writtenOut(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return `<U+${code.toString(16).toUpperCase().padStart(4, '0')}>`;
}
