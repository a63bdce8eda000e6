import type { Lay } from './stretches.ts';

/** Looks for code spans that can be claims in the prose, `TERM of BLOCK = …`. */
export interface ClaimSearch {
  /** Whether a part of the note may hold one: what stands between two backticks reads so. */
  readonly mayStandIn: (start: number, end: number) => boolean;
  /** Whether a code span's text can be one. */
  readonly mayBe: (text: string) => boolean;
}

/**
 * A search for the claims in a note's prose.
 *
 * Such a claim says `=` or `≈`, and `of`, and no backtick. Where it is put
 * between three backticks or more at the beginning of a line, it ends on that line: else it could not be told
 * from a fence. `plain` has no line breaks but `\n`.
 */
export function claimSearch(plain: string, lay: Lay): ClaimSearch {
  const fenceStarts = new Set(lay.fenceMarks.map(mark => mark.at));
  let tick = -1;
  let looked = false;

  function mayStandIn(start: number, end: number): boolean {
    if (!looked || tick < start) {
      tick = plain.indexOf('`', start);
      tick = tick < 0 ? plain.length : tick;
      looked = true;
    }
    for (let open = tick; open < end; ) {
      const inside = afterTicks(plain, open);
      const close = plain.indexOf('`', inside);
      if (close < 0 || end <= close) {
        return false;
      }
      const text = plain.slice(inside, close);
      const cut = fenceStarts.has(open) ? text.includes('\n') : /\n[ \t]*\n/.test(text);
      if (!cut && mayBe(text)) {
        return true;
      }
      open = close;
    }
    return false;
  }

  function mayBe(text: string): boolean {
    return (
      /[=≈]/.test(text) &&
      !text.includes('`') &&
      (text.match(/[\p{L}\p{M}\p{N}-]+/gu)?.some(word => /^of$/i.test(word)) ?? false)
    );
  }

  return { mayStandIn, mayBe };
}

function afterTicks(plain: string, at: number): number {
  let after = at;
  while (plain[after] === '`') {
    after++;
  }
  return after;
}
