import type { Dimension } from '../engine/dimension.ts';
import * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import {
  type Division,
  divisionRatio,
  divisionValue,
  type LinearForm,
  mentions,
  type ScaleEquation,
  type Scales,
  type ScaleTrouble,
  solveScales,
  withEquation,
} from '../engine/scales.ts';
import type { Unit } from '../engine/unit.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { type FormTrouble, linearForm } from './linear-form.ts';
import type { Measurement } from './measurement.ts';
import type { Span } from './syntax.ts';
import type { DivisionTerm, ObservableTerm } from './term-names.ts';

/** Which division each of its terms means. */
export const DIVISION_OF: Readonly<Record<DivisionTerm, Division>> = {
  'main scale division': 'main',
  'vernier scale division': 'vernier',
  'linear scale division': 'linear',
  'circular scale division': 'circular',
  rotation: 'rotation',
};

/** What each division is called. */
export const DIVISION_TERM: Readonly<Record<Division, DivisionTerm>> = {
  main: 'main scale division',
  vernier: 'vernier scale division',
  linear: 'linear scale division',
  circular: 'circular scale division',
  rotation: 'rotation',
};

/** The solved scales of a block, with the records that they rest on. */
export interface ScaleFacts {
  readonly scales: Scales;
  /** The record behind each source number. */
  readonly spans: readonly Span[];
  readonly troubles: readonly ScaleTrouble[];
  /** Sides that could not be brought into a linear form. */
  readonly formTroubles: readonly { readonly span: Span; readonly trouble: FormTrouble }[];
  /** How many lines the vernier has, as recorded or from its equation; null while open. */
  readonly vernierLines: S.Scalar | null;
  /** The number of main (or circular) divisions that those lines span. */
  readonly hasVernier: boolean;
  readonly hasCircular: boolean;
  /** What the vernier slides along. */
  readonly vernierBase: 'main' | 'linear' | 'circular';
  /** The records that say how long its divisions are. */
  readonly vernierEquations: readonly ScaleEquation[];
  /** The unit to show lengths of this instrument in; null where no record has one. */
  readonly unit: Unit | null;
  /** Given values that settle a division which the scale records leave open. */
  /** The source number of what holds where nothing says otherwise: one rotation passes one linear division. */
  readonly usualSource: number | null;
  readonly givenUsed: ReadonlySet<'pitch' | 'least count'>;
  readonly dimension: Dimension | null;
}

/** Solves the block's scales: its records first, then what is given, then what holds where nothing says otherwise. */
export function scaleFacts(facts: Facts): ScaleFacts {
  const { measurement } = facts;
  const spans: Span[] = [];
  const formTroubles: { span: Span; trouble: FormTrouble }[] = [];
  const equations: ScaleEquation[] = [];
  let lines: S.Scalar | null = null;
  let unit: Unit | null = null;
  for (const record of measurement.scales) {
    const forms: LinearForm[] = [];
    for (const side of record.sides) {
      const form = linearForm(side.expression, facts);
      if (!form.ok) {
        formTroubles.push({ span: side.span, trouble: form.trouble });
        continue;
      }
      unit ??= form.unit;
      forms.push(form.form);
      // `1 VSD = 0.95 mm` says how long a division is, not how many there are.
      if (record.scale === 'vernier scale') lines ??= severalOf(onlyCount(form.form, 'vernier'));
    }
    const [first, ...others] = forms;
    for (const other of first === undefined ? [] : others) {
      equations.push({ left: first!, right: other, source: spans.length });
      spans.push(record.span);
    }
  }
  const circle = measurement.counts.get('circular scale');
  if (circle !== undefined) {
    const count = evaluateIn(facts, circle.expression);
    if (count.ok) {
      equations.push(equation([['circular', count.quantity.scalar]], [['rotation', S.UNITY]], spans.length));
      spans.push(circle.span);
    }
  }
  const recorded = measurement.counts.get('vernier scale');
  const count = recorded === undefined ? null : evaluateIn(facts, recorded.expression);
  if (count?.ok) lines = count.quantity.scalar;
  // Of two lines that exclude each other the later one is dropped.
  equations.sort((a, b) => spans[a.source]!.start - spans[b.source]!.start);
  return withGivens(facts, { equations, spans, formTroubles, lines, unit });
}

interface Gathered {
  readonly equations: readonly ScaleEquation[];
  readonly spans: Span[];
  readonly formTroubles: readonly { readonly span: Span; readonly trouble: FormTrouble }[];
  readonly lines: S.Scalar | null;
  readonly unit: Unit | null;
}

function withGivens(facts: Facts, { equations, spans, formTroubles, lines, unit }: Gathered): ScaleFacts {
  const { measurement } = facts;
  let scales = solveScales(equations);
  const troubles = scales.troubles;
  const hasCircular = speaksOfCircular(measurement, scales);
  const hasVernier = lines !== null || speaksOfVernier(measurement, scales);
  let shown = unit;
  let usualSource: number | null = null;
  const givenUsed = new Set<'pitch' | 'least count'>();
  const given = (term: 'pitch' | 'least count', division: Division): void => {
    const record = measurement.givens.get(term);
    if (record === undefined || divisionValue(scales, division) !== null) return;
    const answer = evaluateIn(facts, record.stated.expression);
    if (!answer.ok || answer.quantity.unit === null) return;
    shown ??= answer.quantity.unit;
    scales = withEquation(scales, sized(division, answer.quantity, spans.length));
    spans.push(record.span);
    givenUsed.add(term);
  };
  if (hasCircular) given('pitch', 'rotation');
  if (hasCircular && !(hasVernier && divisionRatio(scales, 'vernier', 'circular') !== null))
    given('least count', 'circular');
  if (hasCircular && divisionRatio(scales, 'rotation', 'linear') === null) {
    usualSource = spans.length;
    // Where nothing says otherwise one rotation passes one linear division.
    scales = withEquation(scales, equation([['rotation', S.UNITY]], [['linear', S.UNITY]], spans.length));
    spans.push(measurement.fence.infoSpan);
  }
  const marks = markSpacing(facts);
  const coarse = hasCircular ? 'linear' : 'main';
  if (marks !== null && divisionValue(scales, coarse) === null) {
    shown ??= marks.quantity.unit;
    scales = withEquation(scales, sized(coarse, marks.quantity, spans.length));
    spans.push(marks.span);
  }
  const onDrum = hasCircular && hasVernier && divisionRatio(scales, 'vernier', 'circular') !== null;
  return {
    scales,
    spans,
    // A given pitch of nothing is no pitch.
    troubles: [
      ...troubles,
      ...scales.troubles.slice(troubles.length).filter(trouble => trouble.kind === 'no-size'),
    ],
    formTroubles,
    vernierLines: lines,
    hasVernier,
    hasCircular,
    vernierBase: onDrum ? 'circular' : hasCircular ? 'linear' : 'main',
    vernierEquations: equations.filter(
      ({ left, right }) => left.divisions.has('vernier') || right.divisions.has('vernier'),
    ),
    unit: shown,
    givenUsed,
    usualSource,
    dimension: scales.dimension,
  };
}

/** Whether a division of a circular scale, or a whole turn, is known, seen or in line when the instrument is closed. */
function speaksOfCircular(measurement: Measurement, scales: Scales): boolean {
  return (
    mentions(scales, 'circular') ||
    mentions(scales, 'rotation') ||
    observes(measurement, 'circular scale reading') ||
    observes(measurement, 'final circular reading') ||
    measurement.closed.some(({ position }) => position.kind === 'division' && position.scale === 'circular')
  );
}

/** The same for a vernier. */
function speaksOfVernier(measurement: Measurement, scales: Scales): boolean {
  return (
    mentions(scales, 'vernier') ||
    observes(measurement, 'coinciding division') ||
    measurement.closed.some(
      ({ position }) =>
        position.kind === 'division' && (position.scale === 'vernier' || position.vernierDivision !== null),
    )
  );
}

function observes({ readings, rows }: Measurement, term: ObservableTerm): boolean {
  return readings.has(term) || rows.some(row => row.readings.has(term));
}

function severalOf(count: S.Scalar | null): S.Scalar | null {
  return count !== null && S.equals(count, S.UNITY) ? null : count;
}

function onlyCount(form: LinearForm, division: Division): S.Scalar | null {
  return form.divisions.size === 1 && form.dimension === null ? (form.divisions.get(division) ?? null) : null;
}

function equation(
  left: readonly [Division, S.Scalar][],
  right: readonly [Division, S.Scalar][],
  source: number,
): ScaleEquation {
  const form = (divisions: readonly [Division, S.Scalar][]): LinearForm => ({
    divisions: new Map(divisions),
    constant: S.NOUGHT,
    dimension: null,
  });
  return { left: form(left), right: form(right), source };
}

function sized(division: Division, quantity: Q.Quantity, source: number): ScaleEquation {
  return {
    left: { divisions: new Map([[division, S.UNITY]]), constant: S.NOUGHT, dimension: null },
    right: { divisions: new Map(), constant: quantity.scalar, dimension: quantity.dimension },
    source,
  };
}

/** `between 7.35 cm and 7.40 cm`: two neighbouring marks fix the division too. */
function markSpacing(facts: Facts): { quantity: Q.Quantity; span: Span } | null {
  for (const readings of [facts.measurement.readings, ...facts.measurement.rows.map(row => row.readings)]) {
    const marks = readings.get('main scale reading') ?? readings.get('linear scale reading');
    if (marks?.kind !== 'between' || marks.low.kind !== 'length' || marks.high.kind !== 'length') continue;
    const low = evaluateIn(facts, marks.low.stated.expression);
    const high = evaluateIn(facts, marks.high.stated.expression);
    if (!low.ok || !high.ok) continue;
    const difference = Q.subtract(high.quantity, low.quantity);
    if (difference.ok && S.sign(difference.quantity.scalar) === 1)
      return { quantity: difference.quantity, span: marks.span };
  }
  return null;
}
