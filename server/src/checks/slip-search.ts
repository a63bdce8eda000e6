import { NO_VALUE, visit } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { SLIPS } from '../engine/slips/all.ts';
import type { SlipData, SlipTerm } from '../engine/slips/slip.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { fineCount } from '../language/facts-divisions.ts';
import { definitionExpression, definitionOf } from '../language/facts-own.ts';
import { valuesOf } from '../language/facts-statistics.ts';
import type { Claim, RowNumber, Stated, Subject } from '../language/measurement.ts';
import type { DivisionTerm } from '../language/term-names.ts';
import { agrees, comparable, isError, isExactTerm, isReading, owner, type StatedValue } from './agreement.ts';
import { errorShares } from './slip-error-shares.ts';
import type { NamedSlip } from './verdict.ts';

/**
 * The slip that explains a wrong value: the first of the list that gives the same number on the same data, and the next
 * one that does; null where none does.
 */
export function findSlip(
  facts: Facts,
  claim: Claim,
  stated: Stated,
  value: StatedValue,
  truth: Q.Quantity,
  before: StatedValue | null,
): NamedSlip | null {
  const pair = comparable(truth, value.quantity);
  if (pair === null) return null;
  const data = new DataOnDemand(facts, claim.subject, stated, value, truth, before);
  let named: { slip: NamedSlip['slip']; because: string } | null = null;
  const rounds = !isReading(claim.subject) && !isExactTerm(claim.subject);
  const isNought = S.isZero(value.quantity.scalar) && isError(claim.subject);
  for (const slip of SLIPS) {
    // A least count, a division, a reading is not rounded at all.
    if (!rounds && (slip.name === 'rounded-twice' || slip.name === 'cut-off')) continue;
    // Nought is no other value with its point moved.
    if (S.isZero(value.quantity.scalar) && (slip.name === 'power-of-ten' || slip.name === 'unit-slip'))
      continue;
    // An error is neither rounded nor cut to nought: it would have no figure left.
    if (isNought && (slip.name === 'rounded-twice' || slip.name === 'cut-off')) continue;
    const hit = slip.values(data).find(candidate => {
      const same = comparable(candidate.value, truth);
      return (
        same !== null &&
        !S.equals(same.truth.scalar, same.stated.scalar) &&
        agreesWithSlip(facts, claim, candidate.value, value, stated)
      );
    });
    if (hit === undefined) continue;
    if (named !== null) return { ...named, next: slip };
    named = { slip, because: hit.because() };
  }
  return named && { ...named, next: null };
}

/** A slip's value counts as stated under the same rounding as the right one would; readings too may be rounded. */
function agreesWithSlip(
  facts: Facts,
  claim: Claim,
  candidate: Q.Quantity,
  value: StatedValue,
  stated: Stated,
): boolean {
  const exact = isReading(claim.subject) || isExactTerm(claim.subject);
  if (!stated.isValue || exact) return agrees(facts, claim.subject, candidate, { ...value, place: null });
  return agrees(facts, claim.subject, candidate, value);
}

/**
 * What students get who slip: the values that the known slips give on the same data, the likeliest first, one of each
 * slip before the second of any.
 *
 * `right` is the right value as it would be written, with its last place; a value equal to it is left out.
 */
export function slipValues(facts: Facts, subject: Subject, right: StatedValue): readonly Q.Quantity[] {
  const truth = right.quantity;
  const data = new DataOnDemand(facts, subject, null, right, truth, null);
  const given = SLIPS.map(slip => slip.values(data).map(({ value }) => value));
  const most = Math.max(...given.map(({ length }) => length));
  const inTurn = Array.from({ length: most }, (_, turn) => given.flatMap(values => values[turn] ?? []));
  return inTurn.flat().filter(value => {
    const pair = comparable(truth, value);
    return pair !== null && !S.equals(pair.truth.scalar, pair.stated.scalar);
  });
}

/**
 * What the slips go by, most of it worked out when one of them asks: few do.
 *
 * A class, for V8 keeps all that the getter of a single object refers to until it collects everything.
 */
class DataOnDemand implements SlipData {
  readonly target: string;
  readonly truth: Q.Quantity;
  readonly stated: Q.Quantity;
  readonly place: SlipData['place'];
  readonly vernier: SlipData['vernier'];
  readonly isScrew: boolean;
  readonly runsBackward: boolean;
  readonly closed: SlipData['closed'];
  readonly before: SlipData['before'];
  readonly value: SlipData['value'];
  readonly lookup: SlipData['lookup'];
  readonly #facts: Facts;
  readonly #home: Facts;
  readonly #subject: Subject;
  readonly #link: Stated | null;
  #count: SlipData['count'] | undefined;
  #values: SlipData['values'] | undefined;
  #formula: SlipData['formula'] | undefined;
  #errorTerms: SlipData['errorTerms'] | undefined;

  constructor(
    facts: Facts,
    subject: Subject,
    stated: Stated | null,
    value: StatedValue,
    truth: Q.Quantity,
    before: StatedValue | null,
  ) {
    const home = owner(facts, subject) ?? facts;
    const scales = home.scales();
    this.target = targetOf(subject);
    this.truth = truth;
    this.stated = value.quantity;
    this.place = value.place;
    this.vernier = !scales.hasVernier
      ? 'none'
      : scales.vernierBase === 'circular'
        ? 'on drum'
        : 'on main scale';
    this.isScrew = scales.hasCircular;
    this.runsBackward = home.measurement.runsBackward;
    this.closed = closedOf(home);
    this.before = before === null ? null : { value: before.quantity, place: before.place };
    // Slips hand these on as they are.
    this.value = term => slipTerm(home, term, rowOf(subject));
    this.lookup = key => lookedUp(home, key);
    this.#facts = facts;
    this.#home = home;
    this.#subject = subject;
    this.#link = stated;
  }

  get numbers(): SlipData['numbers'] {
    return this.#link === null || this.#link.isValue ? [] : numbersIn(this.#link.expression);
  }

  get count(): SlipData['count'] {
    if (this.#count === undefined) {
      const lines = fineCount(this.#home);
      this.#count = lines.ok ? S.realValue(lines.quantity.scalar) : null;
    }
    return this.#count;
  }

  get values(): SlipData['values'] {
    this.#values ??= listOf(this.#home, this.#subject);
    return this.#values;
  }

  get formula(): SlipData['formula'] {
    if (this.#formula === undefined) this.#formula = formulaOf(this.#home, this.#subject);
    return this.#formula;
  }

  get errorTerms(): SlipData['errorTerms'] {
    const subject = this.#subject;
    this.#errorTerms ??= subject.kind === 'statistic' ? errorShares(this.#facts, subject.of) : [];
    return this.#errorTerms;
  }

  get errorOf(): SlipData['errorOf'] {
    if (this.#subject.kind !== 'statistic') return null;
    const of = this.#facts.value(this.#subject.of);
    return of.ok ? of.quantity : null;
  }
}

function numbersIn(expression: Expression): readonly Q.Quantity[] {
  const numbers: Q.Quantity[] = [];
  visit(expression, part => {
    if (part.kind === 'literal') numbers.push(part.quantity);
  });
  return numbers;
}

function lookedUp(home: Facts, key: string): ReturnType<SlipData['lookup']> {
  const subject = home.measurement.subjects.get(key);
  const answer = subject === undefined ? null : home.value(subject);
  return answer?.ok ? { ok: true, quantity: answer.quantity } : NO_VALUE;
}

function rowOf(subject: Subject): RowNumber {
  if (subject.kind === 'statistic') return rowOf(subject.of);
  return subject.kind === 'term' || subject.kind === 'own' ? subject.row : null;
}

function targetOf(subject: Subject): string {
  switch (subject.kind) {
    case 'term':
      return subject.term;
    case 'division':
      return subject.division;
    case 'statistic':
      return subject.statistic;
    case 'own':
      return 'own';
    case 'count':
    case 'unknown':
      return 'count';
  }
}

const DIVISIONS = new Set<string>([
  'main scale division',
  'vernier scale division',
  'linear scale division',
  'circular scale division',
]);

function slipTerm(facts: Facts, term: SlipTerm, row: RowNumber): Q.Quantity | null {
  const answer = DIVISIONS.has(term)
    ? facts.value({ kind: 'division', division: term as DivisionTerm, block: null })
    : facts.term(term as Parameters<Facts['term']>[0], row);
  return answer.ok ? answer.quantity : null;
}

function closedOf(facts: Facts): SlipData['closed'] {
  const first = facts.measurement.closed[0];
  if (first?.position.kind !== 'division' || first.position.nextDivision !== null) return null;
  const number = (stated: Stated | null): ReturnType<typeof S.realValue> => {
    if (stated === null) return null;
    const value = evaluateIn(facts, stated.expression);
    return value.ok ? S.realValue(value.quantity.scalar) : null;
  };
  const { division, vernierDivision, side } = first.position;
  return { division: number(division), vernierDivision: number(vernierDivision), side };
}

function formulaOf(facts: Facts, subject: Subject): Expression | null {
  if (subject.kind !== 'own' || subject.row !== null) return null;
  const definition = definitionOf(facts, subject.name);
  return definition && definitionExpression(facts, definition);
}

const OVER_VALUES = new Set([
  'mean',
  'mean absolute error',
  'standard deviation',
  'mean observed reading',
  'mean corrected reading',
]);

function listOf(facts: Facts, subject: Subject): readonly Q.Quantity[] {
  if (!OVER_VALUES.has(targetOf(subject))) return [];
  const of =
    subject.kind === 'statistic'
      ? subject.of
      : subject.kind === 'term' && subject.term.startsWith('mean ') && subject.term !== 'mean absolute error'
        ? subject
        : null;
  const values = valuesOf(facts, of);
  return values.ok ? values.values : [];
}
