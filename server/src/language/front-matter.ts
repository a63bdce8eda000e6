/**
 * Where the Markdown of a note begins: after the byte-order mark, if there is one, and after the front matter.
 *
 * Front matter stands at the very top between a line `---` and a line `---` or `...`. Its first line is not
 * blank, since `---` above a blank line is a rule across the page (as Pandoc's manual has it, section
 * "Extension: yaml_metadata_block"). `plain` has no line breaks but `\n`.
 */
export function markdownStart(plain: string): number {
  const start = plain.startsWith('\uFEFF') ? 1 : 0;
  if (!plain.startsWith('---', start)) {
    return start;
  }
  const opening = /^\uFEFF?---[ \t]*\n(?![ \t]*(?:\n|$))/.exec(plain);
  if (opening === null) {
    return start;
  }
  const closing = /\n(?:---|\.\.\.)[ \t]*(?:\n|$)/g;
  closing.lastIndex = opening[0].length - 1;
  return closing.exec(plain) === null ? start : closing.lastIndex;
}
