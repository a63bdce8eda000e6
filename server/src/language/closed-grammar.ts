import type { ClosedPart, ClosedScale, Digits } from './closed-words.ts';

/** A form of words that a part of the statement may have. */
export interface Form {
  readonly pattern: RegExp;
  /** Whether it may be said behind it what the line is in line with. */
  readonly isLine: boolean;
  readonly part: (
    groups: Readonly<Record<string, string | undefined>>,
    numbers: readonly Digits[],
  ) => ClosedPart;
}

/** A form of words. Spaces stand for single spaces, `N` for a number that is asked for; it ends with a whole word. */
function form(words: string, part: Form['part'], isLine = false): Form {
  const pattern = new RegExp(`(?:${words.replaceAll('N', '([#01])')})${WORD_END}`, 'dy');
  return { pattern, isLine, part };
}

/** A line by its number, of the scale that is named before it or behind it. */
function lineForm(words: string): Form {
  return form(words, ({ on, of }, numbers) => ({ kind: 'line', on: scaleOf(on ?? of), numbers }), true);
}

const WORD_END = '(?![^ ,;().])';

const ZERO = '(?:zero|0)(?: mark| line)?';
const VERNIER = '(?:vernier|sliding)(?: scale)?';
const CIRCULAR = '(?:circular|head|thimble)(?: scale)?';
const LINE = '(?:(?:reference|base|index|datum|main|pitch|linear|sleeve) )?(?:scale )?line';
const DIVISION = '(?:division|div|line|mark|graduation)';
const DIVISIONS = '(?:(?:circular|head) )?(?:scale )?(?:divisions?|divs?|csd|hsd|vsd)';
/** `division 3 of the vernier coincides with a main scale mark`, `division 47 on the line` */
export const BEHIND_LINE = new RegExp(
  `(?: of (?:the )?(?<of>${VERNIER}|${CIRCULAR}))?(?: is)?(?: (?:(?:coincides|coinciding|in line|matches)(?: with (?:the |a |any |some )?(?:${LINE}|(?:main |linear )?(?:scale )?(?:division|mark|line)))?|(?:on|at) the ${LINE}))?${WORD_END}`,
  'y',
);
const ON = `(?:(?<on>vernier|circular|head|thimble|linear) )?(?:scale )?`;

let forms: readonly Form[] | null = null;

/** The forms of words, to be tried in this order; put together when they are first asked for. */
export function closedForms(): readonly Form[] {
  forms ??= allForms();
  return forms;
}

const allForms = (): readonly Form[] => [
  form(
    `(?:the )?(?:(?:${CIRCULAR} )?${ZERO}|${ZERO} of (?:the )?${CIRCULAR})(?: is| stands)? (?:on|at|coincides with|coinciding with|in line with) (?:the )?${LINE}`,
    () => ({ kind: 'zeros coincide' }),
  ),
  form(
    `(?:the )?(?:${VERNIER} ${ZERO}|${ZERO} of (?:the )?${VERNIER})(?: is| stands)? (?:on|at|coincides with|coinciding with|in line with) (?:the )?(?:main(?: scale)? ${ZERO}|${ZERO} of (?:the )?main scale)`,
    () => ({ kind: 'zeros coincide' }),
  ),
  form(
    `(?:the )?(?:both )?(?:the )?(?:zeros?|zeroes|zero marks?|zero lines?)(?: of (?:the )?(?:two|both) scales)? (?:are )?(?:exactly )?(?:coincide|coinciding|agree|in line|match)(?: exactly| with each other)?|(?:no|nil|zero) zero error|zero error(?: is)? (?:nil|none|zero)`,
    () => ({ kind: 'zeros coincide' }),
  ),
  lineForm(
    `(?:the )?(?:${ON}${DIVISION} )?between (?:${DIVISION}s? )?N(?:th)? and N(?:th)?(?: ${DIVISION}s?)?`,
  ),
  lineForm(
    `(?:(?:the )?${LINE} )?(?:(?:coincid(?:es|ing)|in line) with |coinciding )?(?:the )?${ON}(?:${DIVISION}(?: number| no)?|coincidence|coinciding ${DIVISION}) N`,
  ),
  lineForm(
    `(?:(?:the )?${LINE} )?(?:(?:coincid(?:es|ing)|in line) with |coinciding )?(?:the )?Nth ${ON}${DIVISION}`,
  ),
  form(`(?<on>n|vc|csr|hsr)(?: [=:])? N`, ({ on }, numbers) => ({
    kind: 'line',
    on: on === 'n' ? null : on === 'vc' ? 'vernier' : 'circular',
    numbers,
  })),
  form(`(?:by )N ${DIVISIONS}`, (_, [number]) => ({ kind: 'count', number: number! })),
  form(`N (?:(?:circular|head) )?(?:scale )?(?:divisions|divs|csd|hsd|vsd)`, (_, [number]) => ({
    kind: 'count',
    number: number!,
  })),
  form(
    `(1) ${DIVISIONS}|N ${DIVISIONS}(?= (?:(?:is|lies|stands) )?(?:above|below|on the arc|off the arc))`,
    (_, [number]) => ({
      kind: 'count',
      number: number!,
    }),
  ),
  form(`(?:by )?(@)`, (_, [number]) => ({ kind: 'size', number: number! })),
  form(`from (?:the )?(?:far|other|right|last) end|from the (?:end|right)`, () => ({ kind: 'far end' })),
  form(
    `(?:(?:to|on|toward|towards) )?(?:the )?(?<side>right|left|ahead|behind)(?: side| hand side)?(?: of (?:the )?(?:(?:main (?:scale )?)?${ZERO}(?: of (?:the )?main(?: scale)?)?|main scale))?`,
    ({ side }) => ({
      kind: 'side',
      on: 'vernier',
      side: side === 'right' || side === 'ahead' ? 'positive' : 'negative',
    }),
  ),
  form(`(?<side>above|below)(?: (?:the )?${LINE})?`, ({ side }) => ({
    kind: 'side',
    on: 'circular',
    side: side === 'below' ? 'positive' : 'negative',
  })),
  form(`(?<side>on|off) the arc`, ({ side }) => ({
    kind: 'side',
    on: 'arc',
    side: side === 'on' ? 'positive' : 'negative',
  })),
  form(`(?<side>(?:barely|just) visible|visible|hidden|not visible)`, ({ side }) => ({
    kind: 'side',
    on: 'linear',
    side: side === 'visible' ? 'positive' : /^(?:barely|just)/.test(side!) ? 'nearest' : 'negative',
  })),
  form(
    `(?:the )?(?:(?<on>${VERNIER}|${CIRCULAR}|linear(?: scale)?) ${ZERO}|${ZERO} of (?:the )?(?<of>${VERNIER}|${CIRCULAR}|linear scale))`,
    ({ on, of }) => ({ kind: 'zero', on: scaleOf(on ?? of) }),
  ),
  form(`(?:the )?(?:${VERNIER}(?= (?:(?:is|lies|stands|to|on|the) )*(?:right|left|ahead|behind)))`, () => ({
    kind: 'zero',
    on: 'vernier',
  })),
  form(`(?:the )?(?:zero(?: mark)?|index(?: mark)?)`, () => ({ kind: 'zero', on: null })),
];

function scaleOf(words: string | undefined): ClosedScale | null {
  if (words === undefined) return null;
  if (/^linear/.test(words)) return 'linear';
  return /^(?:vernier|sliding)/.test(words) ? 'vernier' : 'circular';
}
