import type { Problem } from './problem.ts';

/** How many quotes and lists may begin on one line. */
export const DEEPEST_NESTING = 64;

/** What reading one note may cost, as `readingEffort` counts it: a megabyte of ordinary Markdown is some two million. */
export const MOST_EFFORT = 8_000_000;

/** So many parts of a note are read for claims in their prose; no one writes as many. */
export const MOST_PROSE = 2000;

export function tooDeep(start: number, end: number): Problem {
  return {
    rule: 'limit',
    span: { start, end },
    message:
      `more than ${DEEPEST_NESTING} quotes and lists stand inside each other here, too many to look for blocks in ` +
      'them, so a block belongs further out',
    fixes: [],
  };
}

export function tooManySpans(start: number, end: number): Problem {
  return {
    rule: 'limit',
    span: { start, end },
    message:
      'the prose from here on is too long, or holds too many code spans, to look for claims in it, so its claims are not ' +
      'checked; divide it',
    fixes: [],
  };
}

export function tooLong(start: number, end: number): Problem {
  return {
    rule: 'limit',
    span: { start, end },
    message:
      'the lists, quotes and code spans of this note are too many to look for blocks among them, and none is read from ' +
      'here on, so divide the note',
    fixes: [],
  };
}
