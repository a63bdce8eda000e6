import katex from 'katex';

/** What KaTeX, a general library, says against a formula where it is as strict as it can be; null for nothing. */
export function katexComplaint(latex: string, displayMode: boolean): string | null {
  const key = `${displayMode} ${latex}`;
  if (!complaints.has(key)) complaints.set(key, compile(latex, displayMode));
  return complaints.get(key) ?? null;
}

/** Workings say the same again and again, and compiling is slow. */
const complaints = new Map<string, string | null>();

function compile(latex: string, displayMode: boolean): string | null {
  try {
    katex.renderToString(latex, { throwOnError: true, strict: 'error', displayMode });
    return null;
  } catch (error) {
    return `${latex}\n${error instanceof Error ? error.message : String(error)}`;
  }
}

export interface MathPiece {
  readonly latex: string;
  readonly isDisplayed: boolean;
}

/** All math of a Markdown text: between lines of `$$`, and between `$` within a line. */
export function mathPieces(markdown: string): MathPiece[] {
  const pieces: MathPiece[] = [];
  let display: string[] | null = null;
  for (const line of markdown.split('\n')) {
    if (line === '$$') {
      if (display !== null) pieces.push({ latex: display.join('\n'), isDisplayed: true });
      display = display === null ? [] : null;
    } else if (display !== null) display.push(line);
    else
      for (const match of line.matchAll(/(?<!\\)\$((?:\\.|[^$\\])+)\$/g))
        pieces.push({ latex: match[1] ?? '', isDisplayed: false });
  }
  if (display !== null) throw new Error(`a display is never closed:\n${markdown}`);
  return pieces;
}
