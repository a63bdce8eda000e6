import { toDecimalText } from '../../server/src/engine/decimal-text.ts';
import * as Q from '../../server/src/engine/quantity.ts';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';
import type { Slip, SlipData, SlipTerm } from '../../server/src/engine/slips/slip.ts';
import { unitWord } from '../../server/src/engine/unit.ts';

/** A value as a test writes it: `2.45 cm`, `-0.06 mm`, `17`, `1/60 deg`. */
export function q(text: string): Q.Quantity {
  const [number = '', word = ''] = text.split(' ');
  const unit = word === '' ? null : unitWord(word);
  if (word !== '' && unit === null) throw new Error(`no unit: ${word}`);
  const value = R.rational(number);
  return unit === null ? Q.plain(value) : Q.quantity(value, unit);
}

/** What a test says of the block by hand; the rest is as in a block that says nothing. */
export type Said = Partial<Omit<SlipData, 'truth' | 'stated' | 'value' | 'place' | 'count' | 'lookup'>> & {
  readonly target: string;
  readonly truth: string | Q.Quantity;
  /** As typed; its last decimal is the place. The truth where a test says nothing, without a place. */
  readonly stated?: string;
  readonly count?: number;
  readonly terms?: Partial<Record<SlipTerm, string | Q.Quantity>>;
  readonly names?: Readonly<Record<string, string>>;
};

/** The data of one wrong claim. */
export function slipData({ truth, stated, count, terms = {}, names = {}, ...said }: Said): SlipData {
  const right = asQuantity(truth);
  return {
    vernier: 'none',
    isScrew: false,
    runsBackward: false,
    closed: null,
    values: [],
    formula: null,
    errorTerms: [],
    errorOf: null,
    before: null,
    numbers: [],
    ...said,
    truth: right,
    stated: stated === undefined ? right : q(stated),
    place: stated === undefined ? null : placeOf(stated),
    count: count === undefined ? null : R.rational(count),
    value: term => (terms[term] === undefined ? null : asQuantity(terms[term])),
    lookup(key) {
      const text = names[key];
      if (text === undefined) return { ok: false, trouble: { kind: 'domain', what: key } };
      return { ok: true, quantity: q(text) };
    },
  };
}

function asQuantity(value: string | Q.Quantity): Q.Quantity {
  return typeof value === 'string' ? q(value) : value;
}

/** One in the last place of a typed value, in base units. */
export function placeOf(text: string): R.Rational | null {
  const [number = '', word = ''] = text.split(' ');
  const places = number.split('.')[1]?.length ?? 0;
  const unit = word === '' ? null : unitWord(word);
  return R.divide(R.multiply(R.ONE, unit?.factor ?? R.ONE), R.rational(10 ** places));
}

/** What a slip gives, as numbers in a unit: `2.49`, `1/3`; without a unit plain numbers. */
export function numbersOf(slip: Slip, data: SlipData, word = ''): readonly string[] {
  const unit = word === '' ? null : unitWord(word);
  return slip.values(data).map(({ value }) => {
    const number = unit === null ? value.scalar : Q.inUnit(value, unit);
    const real = number && S.realValue(number);
    if (!real) return number === null ? 'another kind' : S.scalarText(number);
    const places = R.terminatingPlaces(real);
    return places === null ? R.toFractionText(real) : toDecimalText(real, places);
  });
}

/** The sentences of a slip, each once. */
export function sentencesOf(slip: Slip, data: SlipData): readonly string[] {
  return [...new Set(slip.values(data).map(each => each.because()))];
}
