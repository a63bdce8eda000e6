import { type Dimension, dimension } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import type { Domain } from '../engine/polynomial.ts';
import * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { type Answer, computed, missing, REPORTED } from './answer.ts';
import { chosenReading, evaluateIn, evaluateStated } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { measuredSum } from './measured-sum.ts';
import type { Claim, LetterKind, RowNumber, Stated } from './measurement.ts';
import { correctionBehind, literalsIn, type Traced, tracedExpression } from './trace.ts';

/** The value of a quantity of one's own: as recorded, or by the first formula of the claim that defines it. */
export function ownValue(facts: Facts, name: string, row: RowNumber): Answer {
  const { measurement } = facts;
  if (row !== null) {
    const cell = measurement.rows[row - 1]?.own.get(name);
    if (cell === undefined) return missing(`row ${row} has no value of ${name}`);
    const value = evaluateStated(facts, cell.stated);
    return value.ok ? { ...value, source: 'given', span: cell.span } : value;
  }
  const record = measurement.own.get(name);
  if (record !== undefined) {
    switch (record.kind) {
      case 'value': {
        const value = evaluateStated(facts, record.given.stated);
        return value.ok ? { ...value, source: 'given', span: record.given.span } : value;
      }
      case 'letter':
        return { ok: true, quantity: letterValue(name, record.domain), source: 'given', span: record.span };
      case 'list':
        return missing(
          `${name} is a list of ${record.values.length} values; write mean of ${name} where one value is meant`,
        );
    }
  }
  const definition = definitionOf(facts, name);
  if (definition !== null) return evaluateDefinition(facts, definition);
  if (measurement.columns.has(name))
    return missing(`${name} is a column of the table; write mean of ${name} or ${name} of a row's label`);
  return missing(`nothing in this block determines ${name}: record it (\`${name}: …\`)`);
}

/** The formula that a claim makes an own quantity by. */
export interface Definition {
  readonly claim: Claim;
  readonly stated: Stated;
  /** Only numbers: what they stand for has to be looked for in the block. */
  readonly isNumbers: boolean;
}

/** The first link of the first claim about a quantity, where it is more than a value; null where none is. */
export function definitionOf(facts: Facts, name: string): Definition | null {
  for (const claim of facts.measurement.claims) {
    if (claim.subject.kind !== 'own' || claim.subject.name !== name || claim.subject.block !== null) continue;
    const first = claim.links.find(link => link.content.kind === 'stated');
    if (first?.content.kind !== 'stated') continue;
    const { stated } = first.content;
    if (stated.isValue) continue;
    // `sqrt(2 g h)` holds no name as long as g and h are units.
    const chosen = chosenReading(
      facts,
      stated,
      stated.readings.length === 0 ? null : wantedDimension(facts, claim),
    );
    return { claim, stated, isNumbers: namesIn(chosen).size === 0 };
  }
  return null;
}

function evaluateDefinition(facts: Facts, definition: Definition): Answer {
  const { stated, claim } = definition;
  if (!definition.isNumbers) {
    const correction = correctionOf(facts, definition);
    if (correction !== null) return single(facts, claim, evaluateIn(facts, correction));
    const value = evaluateStated(facts, stated, wantedDimension(facts, claim));
    const measured = value.ok ? null : measuredDefinition(facts, claim, stated, stated.expression);
    return single(facts, claim, measured === null ? value : evaluateIn(facts, measured));
  }
  const value = evaluateIn(facts, definitionExpression(facts, definition));
  return single(facts, claim, value);
}

/** The kind of quantity that a claim's last value says it is; null where it has none. */
function wantedDimension(facts: Facts, claim: Claim): Dimension | null {
  const last = claim.links[claim.links.length - 1];
  const isValue =
    last?.content.kind === 'stated' && last.content.stated.isValue && last.content.stated.hasUnit;
  const value = isValue && last.content.kind === 'stated' ? evaluateStated(facts, last.content.stated) : null;
  return value?.ok ? value.quantity.dimension : null;
}

/** `2A = 120°` says what A is, too. */
function single(facts: Facts, claim: Claim, value: Answer): Answer {
  if (claim.times === null || !value.ok) return value;
  const times = evaluateIn(facts, claim.times);
  const one = times.ok ? Q.divide(value.quantity, times.quantity) : null;
  return one?.ok ? computed(one.quantity) : REPORTED;
}

/** The defining formula, with the names of what its numbers stand for put in their place. */
export function definitionExpression(facts: Facts, definition: Definition): Expression {
  const { claim } = definition;
  if (!definition.isNumbers) return correctionOf(facts, definition) ?? namedFormula(facts, definition);
  const traced = tracedDefinition(facts, definition);
  if (!evaluateIn(facts, traced.expression).ok) {
    const sum = measuredDefinition(facts, claim, definition.stated, traced.expression);
    if (sum !== null) return sum;
  }
  const unit = definition.stated.hasUnit ? null : lastUnit(claim);
  // Bare numbers that stand for values bring the values' units; where they do not go together with the other numbers, or
  // stand for nothing, all are measured by the last link's only unit.
  if (unit === null) return traced.expression;
  const named = traced.untraced.length === 0 && namesIn(traced.expression).size > 0;
  const measured: Expression = { kind: 'measured', of: definition.stated.expression, unit };
  const converts = isConverted(facts, definition, measured);
  return named && !converts && evaluateIn(facts, traced.expression).ok ? traced.expression : measured;
}

/** Whether a factor such as 1000 brings bare numbers to the last link's unit: `19.2/1000 = 0.0192 kg`, of 19.2 g. */
function isConverted(facts: Facts, { claim, stated }: Definition, measured: Expression): boolean {
  const factors = literalsIn(stated.expression).filter(({ text }) => /^10{2,}$/.test(text));
  const last = claim.links[claim.links.length - 1];
  if (factors.length === 0 || last?.content.kind !== 'stated') return false;
  const end = evaluateStated(facts, last.content.stated);
  const value = evaluateIn(facts, measured);
  return end.ok && value.ok && Q.equals(end.quantity, value.quantity);
}

/** A definition by mere numbers with the names of what they stand for put in their place, and those that stand for nothing. */
export function tracedDefinition(facts: Facts, { claim, stated }: Definition): Traced {
  const name = claim.subject.kind === 'own' ? claim.subject.name : '';
  return tracedExpression(facts, stated.expression, name, wantedDimension(facts, claim));
}

function namedFormula(facts: Facts, { claim, stated }: Definition): Expression {
  const chosen = chosenReading(facts, stated, wantedDimension(facts, claim));
  if (evaluateIn(facts, chosen).ok) return chosen;
  return measuredDefinition(facts, claim, stated, chosen) ?? chosen;
}

/** The formula with the last link's unit behind the numbers of a sum that leave it out; null where there are none. */
function measuredDefinition(
  facts: Facts,
  claim: Claim,
  { hasUnit }: Stated,
  expression: Expression,
): Expression | null {
  const unit = lastUnit(claim);
  return unit === null ? null : measuredSum(facts, expression, unit, hasUnit);
}

/** `observed reading - 0.03 mm` of an own quantity is what corrects the reading, so that a sign the wrong way is found. */
function correctionOf(facts: Facts, { claim, stated }: Definition): Expression | null {
  const name = claim.subject.kind === 'own' ? claim.subject.name : '';
  return claim.times === null ? correctionBehind(facts, stated.expression, name) : null;
}

function lastUnit(claim: Claim): Unit | null {
  const last = claim.links[claim.links.length - 1];
  if (last?.content.kind !== 'stated') return null;
  const { expression } = last.content.stated;
  return expression.kind === 'literal' ? expression.quantity.unit : null;
}

function letterValue(name: string, kind: LetterKind): Q.Quantity {
  const domain: Domain = kind === 'whole number' ? 'count' : 'positive';
  return { scalar: S.letter(name, domain), dimension: LETTER_DIMENSIONS[kind], unit: null };
}

const LETTER_DIMENSIONS = {
  number: dimension({}),
  'whole number': dimension({}),
  length: dimension({ length: 1 }),
  mass: dimension({ mass: 1 }),
  time: dimension({ time: 1 }),
  angle: dimension({ angle: 1 }),
  quantity: dimension({}),
} as const;
