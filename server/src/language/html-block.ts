/**
 * Where the note goes on after an HTML block that begins at `start` and is still open at `from`, a line's start.
 *
 * Such a block ends with the line that holds its own end mark (CommonMark 0.31, 4.6, kinds 1 to 5), or
 * with the note. `plain` has no line breaks but `\n`.
 */
export function endOfHtml(plain: string, start: number, from: number): number {
  const end = endMark(plain.slice(start, start + 16).trimStart());
  end.lastIndex = from;
  const found = end.exec(plain);
  const newline = found === null ? -1 : plain.indexOf('\n', found.index);
  return newline < 0 ? plain.length : newline + 1;
}

function endMark(opening: string): RegExp {
  if (opening.startsWith('<!--')) {
    return /-->/g;
  }
  if (opening.startsWith('<?')) {
    return /\?>/g;
  }
  if (opening.startsWith('<![CDATA[')) {
    return /\]\]>/g;
  }
  return opening.startsWith('<!') ? />/g : /<\/(?:pre|script|style|textarea)>/gi;
}
