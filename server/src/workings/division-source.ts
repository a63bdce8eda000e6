import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { DIVISIONS, type Division, divisionValue, type LinearForm } from '../engine/scales.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { linearForm } from '../language/linear-form.ts';

/** What settles a division: a record of its length, another division, or what is given. */
export type DivisionSource =
  /** `1 cm = 20 MSD`: so many of it make a length. */
  | { readonly kind: 'length'; readonly count: S.Scalar; readonly length: Q.Quantity }
  /** `25 VSD = 24 MSD`: so many of it are so many others. */
  | {
      readonly kind: 'others';
      readonly count: S.Scalar;
      readonly other: Division;
      readonly times: S.Scalar;
      /** Nothing is recorded: one rotation passes one linear division. */
      readonly isUsual: boolean;
    }
  /** `between 7.35 cm and 7.40 cm`: two neighbouring marks. */
  | { readonly kind: 'marks'; readonly low: Q.Quantity; readonly high: Q.Quantity }
  | { readonly kind: 'given'; readonly term: 'pitch' | 'least count' };

/**
 * The record that says what one division is worth: a length before other divisions, and those only where they are
 * settled without it. Null where nothing does, or several records together.
 */
export function divisionSource(
  facts: Facts,
  division: Division,
  without: ReadonlySet<Division> = new Set(),
): DivisionSource | null {
  const value = divisionValue(facts.scales().scales, division);
  if (value === null) return null;
  const others: Extract<DivisionSource, { readonly kind: 'others' }>[] = [];
  for (const [own, other] of pairs(facts)) {
    const count = onlyOf(own, division);
    if (count === null || S.isZero(count)) continue;
    if (other.divisions.size === 0) {
      const length = { scalar: other.constant, dimension: other.dimension!, unit: other.unit };
      if (S.equals(S.multiply(count, value), length.scalar)) return { kind: 'length', count, length };
      continue;
    }
    const found = DIVISIONS.find(candidate => onlyOf(other, candidate) !== null);
    if (found === undefined || found === division) continue;
    const times = onlyOf(other, found)!;
    const one = divisionValue(facts.scales().scales, found);
    if (one !== null && S.equals(S.multiply(count, value), S.multiply(times, one)))
      others.push({ kind: 'others', count, other: found, times, isUsual: false });
  }
  const { givenUsed, usualSource } = facts.scales();
  if (division === 'rotation' && givenUsed.has('pitch')) return { kind: 'given', term: 'pitch' };
  if (division === 'circular' && givenUsed.has('least count')) return { kind: 'given', term: 'least count' };
  const tried = new Set([...without, division]);
  const isSettled = (other: Division): boolean =>
    !tried.has(other) && divisionSource(facts, other, tried) !== null;
  const recorded = others.find(source => isSettled(source.other));
  if (recorded !== undefined) return recorded;
  const twin = division === 'rotation' ? 'linear' : division === 'linear' ? 'rotation' : null;
  if (usualSource !== null && twin !== null && isSettled(twin))
    return { kind: 'others', count: S.UNITY, other: twin, times: S.UNITY, isUsual: true };
  return division === 'main' || division === 'linear' ? neighbouringMarks(facts, value) : null;
}

type SizedForm = LinearForm & { readonly unit: Q.Quantity['unit'] };

type FormPair = readonly [SizedForm, SizedForm];

/** Every record as pairs of its sides, either way round. */
function pairs(facts: Facts): readonly FormPair[] {
  const before = paired.get(facts);
  if (before !== undefined) return before;
  const found = findPairs(facts);
  paired.set(facts, found);
  return found;
}

const paired = new WeakMap<Facts, readonly FormPair[]>();

/** Of a longer chain only the first side is compared with the others. */
const MOST_SIDES = 6;

function findPairs(facts: Facts): readonly FormPair[] {
  const found: FormPair[] = [];
  for (const record of facts.measurement.scales) {
    const forms = record.sides.flatMap(side => {
      const form = linearForm(side.expression, facts);
      return form.ok ? [{ ...form.form, unit: form.unit }] : [];
    });
    for (const [index, form] of forms.slice(0, forms.length > MOST_SIDES ? 1 : MOST_SIDES).entries()) {
      for (const other of forms.slice(index + 1)) found.push([form, other], [other, form]);
    }
  }
  const circle = facts.measurement.counts.get('circular scale');
  const count = circle === undefined ? null : evaluateIn(facts, circle.expression);
  if (count?.ok) {
    const drum = onlyForm('circular', count.quantity.scalar);
    const turn = onlyForm('rotation', S.UNITY);
    found.push([drum, turn], [turn, drum]);
  }
  return found;
}

function onlyForm(division: Division, count: S.Scalar): SizedForm {
  return { divisions: new Map([[division, count]]), constant: S.NOUGHT, dimension: null, unit: null };
}

function onlyOf(form: LinearForm, division: Division): S.Scalar | null {
  return form.divisions.size === 1 && form.dimension === null ? (form.divisions.get(division) ?? null) : null;
}

function neighbouringMarks(facts: Facts, value: S.Scalar): DivisionSource | null {
  const { readings, rows } = facts.measurement;
  for (const observed of [readings, ...rows.map(row => row.readings)]) {
    const marks = observed.get('main scale reading') ?? observed.get('linear scale reading');
    if (marks?.kind !== 'between' || marks.low.kind !== 'length' || marks.high.kind !== 'length') continue;
    const low = evaluateIn(facts, marks.low.stated.expression);
    const high = evaluateIn(facts, marks.high.stated.expression);
    if (!low.ok || !high.ok) continue;
    if (S.equals(S.subtract(high.quantity.scalar, low.quantity.scalar), value))
      return { kind: 'marks', low: low.quantity, high: high.quantity };
  }
  return null;
}
