import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import type { ErrorSource, SourceMode } from './error-sources.ts';
import { centreOf } from './put-in.ts';
import { deltaOf, roundedError, ruleSteps, sourceError, uncertaintyOf } from './source-error.ts';
import { about, joined, named, sideStep, written } from './step-parts.ts';
import { nameIn } from './subject-name.ts';

/** Why the slopes are needed, as a sentence without its stop. */
export function slopeReason(name: string, mode: SourceMode): string {
  const word = wordOf(mode);
  return `how far each ${word} moves ${name}: the slope of ${name} against what was measured, by the rules of differentiation, times its ${word}`;
}

function wordOf(mode: SourceMode): string {
  return mode === 'worst' ? 'error' : 'standard uncertainty';
}

/** The share of each measured thing, |slope| × error, in a table, and what they make together. */
export function slopeSteps(
  facts: Facts,
  of: Subject,
  mode: SourceMode,
  sources: readonly ErrorSource[],
  reason: string | null,
): readonly Step[] {
  const symbol = symbolOf(mode);
  const name = nameIn(facts, of);
  const value = facts.value(centreOf(facts, of));
  const unit = value.ok ? value.quantity.unit : null;
  const shares = sources.map(({ share }) => roundedError(share, unit));
  return [
    ...ruleSteps(facts, sources, mode, symbol),
    {
      kind: 'table',
      reason,
      header: ['measured', `its ${wordOf(mode)}`, `slope of ${name}`, `share of the ${wordOf(mode)}`],
      rows: sources.map((source, index) => [
        source.name,
        literalOr(sourceError(facts, source, mode).number, roundedError(source.error)),
        roundedError(sizeOfSlope(source.slope)),
        shares[index]!,
      ]),
    },
    ...(shares.length > 1 ? [sideStep(named(symbol(name)), [about(together(mode, shares))])] : []),
  ];
}

/** A recorded error as it was typed; one that is worked out by its value. */
function literalOr(number: Expression, value: Expression): Expression {
  return number.kind === 'literal' ? number : value;
}

function sizeOfSlope(slope: Q.Quantity): Q.Quantity {
  const size = Q.abs(slope);
  return size.ok ? size.quantity : slope;
}

/** How an error is called in a formula. */
export function symbolOf(mode: SourceMode): (name: string) => string {
  return mode === 'worst' ? deltaOf : uncertaintyOf;
}

/** Errors in the worst case are added, independent ones by their squares. */
export function together(mode: SourceMode, terms: readonly Expression[]): Expression {
  const [first, ...others] = terms;
  if (first === undefined) return written('0', Q.plain(R.ZERO));
  if (others.length === 0) return first;
  const add = (parts: readonly Expression[]): Expression =>
    parts.slice(1).reduce((sum, part) => joined('add', sum, part), parts[0]!);
  if (mode === 'worst') return add(terms);
  return { kind: 'call', name: 'sqrt', arguments: [add(terms.map(squared))] };
}

function squared(base: Expression): Expression {
  return { kind: 'power', base, exponent: written('2', Q.plain(R.TWO)) };
}
