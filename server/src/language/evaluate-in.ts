import { type Dimension, sameDimension } from '../engine/dimension.ts';
import { evaluate, NO_VALUE, namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import { type Answer, computed, type Lack, lacking } from './answer.ts';
import type { Facts } from './facts.ts';
import type { Stated, Subject } from './measurement.ts';
import { isRootOfLetters, sharesIn } from './shares.ts';

/** The value of a formula with the block's own values in it. */
export function evaluateIn(
  facts: Facts,
  expression: Expression,
  names: ReadonlyMap<string, Subject> = facts.measurement.subjects,
): Answer {
  let lack: Lack | null = null;
  const outcome = evaluate(expression, key => {
    const subject = names.get(key);
    const answer: Answer =
      subject === undefined
        ? lacking({ kind: 'unknown-name', word: key.replace(/^\?/, ''), span: null })
        : facts.value(subject);
    if (answer.ok) return { ok: true, quantity: answer.quantity };
    lack ??= answer.lack;
    return NO_VALUE;
  });
  if (outcome.ok) return computed(outcome.quantity);
  const shares = isRootOfLetters(lack) ? sharesIn(expression, names) : null;
  if (shares !== null) return evaluateIn(facts, shares.expression, shares.names);
  return lacking(lack ?? { kind: 'trouble', trouble: outcome.trouble, span: null });
}

/**
 * The value of something stated. Where a word is both a unit and a name, the reading whose dimensions fit is taken;
 * where both or neither do, it is said to have two readings.
 */
export function evaluateStated(facts: Facts, stated: Stated, wanted: Dimension | null = null): Answer {
  const first = evaluateIn(facts, stated.expression);
  if (stated.readings.length === 0 && stated.mixed.length === 0) return withSpan(first, stated);
  const all = [first, ...stated.readings.map(reading => evaluateIn(facts, reading))];
  const fitting = all.filter(answer => isFitting(answer, wanted));
  // Two ways to read it that come to the same leave no doubt.
  const [only, ...others] = fitting;
  if (only?.ok && others.every(other => other.ok && Q.equals(other.quantity, only.quantity))) return only;
  if (fitting.length === 0) {
    const mixed = stated.mixed.map(reading => evaluateIn(facts, reading));
    const fits = mixed.filter(answer => isFitting(answer, wanted));
    if (fits.length === 1) return fits[0]!;
    if (stated.readings.length === 0) return withSpan(first, stated);
  }
  return lacking({ kind: 'two-readings', span: stated.span, word: doubtfulWord(stated) });
}

/** The word that is a name in one reading and a unit in the other. */
function doubtfulWord(stated: Stated): string {
  const settled = namesIn(stated.expression);
  const key = stated.readings.flatMap(reading => [...namesIn(reading)]).find(name => !settled.has(name));
  return (key ?? 'a word').replace(/^own /, '');
}

/** The first reading of something stated that fits: the one that `evaluateStated` takes where it takes one. */
export function chosenReading(facts: Facts, stated: Stated, wanted: Dimension | null): Expression {
  if (stated.readings.length === 0 && stated.mixed.length === 0) return stated.expression;
  for (const reading of [stated.expression, ...stated.readings, ...stated.mixed])
    if (isFitting(evaluateIn(facts, reading), wanted)) return reading;
  return stated.expression;
}

function isFitting(answer: Answer, wanted: Dimension | null): boolean {
  return answer.ok && (wanted === null || fits(answer.quantity.dimension, wanted));
}

function withSpan(answer: Answer, stated: Stated): Answer {
  if (answer.ok) return answer;
  const { lack } = answer;
  if (lack.kind === 'unknown-name' && lack.span === null) {
    for (const [part, span] of stated.spans) {
      if (part.kind === 'name' && part.key === `?${lack.word}`) return lacking({ ...lack, span });
    }
    return lacking({ ...lack, span: stated.span });
  }
  return lack.kind === 'trouble' && lack.span === null ? lacking({ ...lack, span: stated.span }) : answer;
}

function fits(a: Dimension, b: Dimension): boolean {
  return sameDimension(a, b) || sameDimension({ ...a, angle: 0 }, { ...b, angle: 0 });
}
