/**
 * What must never reach a terminal as it is: control characters (C0, DEL, C1), line and paragraph
 * separators, marks that turn the writing direction, invisible characters, halves of a surrogate pair.
 * The joiners U+200C and U+200D stay: scripts and signs need them.
 */
const UNSAFE =
  /[\p{Cc}\p{Cs}\u00ad\u061c\u115f\u1160\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\u3164\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/**
 * What a build host takes for a command in what a program prints: a line that begins with two colons, and a bracket after
 * two number signs, with a word between on some hosts, anywhere in a line. Its first sign is written out. What has no width
 * may stand between them, for some hosts do not see it.
 */
const COMMAND =
  /^([\s\u200c\u200d]*):(?=[\u200c\u200d]*:)|#(?=[\u200c\u200d]*#[\u200c\u200d]*(?:vso|teamcity)?[\u200c\u200d]*\[)/g;

/** A text from a note or a path with everything that could trick a terminal or a build host written out, as in `<U+202E>`. */
export function escapeControls(text: string): string {
  return text
    .replace(COMMAND, (sign, blank: string | undefined) => `${blank ?? ''}${writtenOut(sign.at(-1) ?? '')}`)
    .replace(UNSAFE, writtenOut);
}

/** The same for one sign of a text, at its offset there: whether it begins a command shows only behind it. */
export function escapeControlsAt(text: string, at: number, sign: string): string {
  const [first] = sign;
  const isCommand = first === '#' && escapeControls(text.slice(at)).startsWith(writtenOut(first));
  return isCommand ? writtenOut(first) + escapeControls(sign.slice(1)) : escapeControls(sign);
}

function writtenOut(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return `<U+${code.toString(16).toUpperCase().padStart(4, '0')}>`;
}
