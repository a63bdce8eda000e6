import type { Derivation, Step, StepLink } from '../engine/derivation.ts';
import { namesIn, rewrite } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import { isAboutFormula } from '../language/claim.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { ownerOf } from '../language/facts-error.ts';
import { definitionExpression, definitionOf } from '../language/facts-own.ts';
import type { Subject } from '../language/measurement.ts';
import { expressionText } from '../render/expression-text.ts';
import { numbersPutIn } from './checked-link.ts';
import { localDerivation } from './derive-at-home.ts';
import { scatterDerivation } from './derive-scatter.ts';
import { meanStep } from './mean-step.ts';
import { resultLink, writtenValue } from './put-in.ts';
import { claimStep, equal, joined, named } from './step-parts.ts';
import { claimOf, nameIn, titleOf } from './subject-name.ts';
import type { Deriving } from './working.ts';

/**
 * A quantity of one's own by the formula that defines it: `rho = m / v = 1.06 g / 0.136 cm^3 ≈ 7.80 g/cm^3`.
 *
 * What it is made of has workings of its own. Null for a recorded value.
 */
export function deriveOwn(deriving: Deriving, subject: Subject): Derivation | null {
  return localDerivation(deriving, subject, (facts, local) => {
    if (local.kind !== 'own' || local.row !== null) return null;
    const formula = formulaFor(facts, local.name);
    const right = formula === null ? null : writtenValue(facts, local);
    if (formula === null || right === null) return null;
    const before = unclaimedSteps(facts, formula);
    const links: StepLink[] = [equal(formula)];
    if (formula.kind === 'name') links.push(...before.links);
    const numbers = numbersPutIn(facts, local, formula, right);
    if (numbers !== null) links.push(equal(numbers));
    const result = resultLink(right);
    const last = links[links.length - 1];
    // A formula in letters that is in its simplest form already is the result.
    if (last === undefined || spelled(last.value) !== spelled(result.value)) links.push(result);
    const steps = formula.kind === 'name' && before.links.length > 0 ? [] : before.steps;
    const claim = claimOf(facts, local);
    // What is claimed of a formula begins with the formula itself.
    const isFormula = claim !== null && isAboutFormula(claim);
    const step = isFormula ? claimStep(formula, links.slice(1)) : claimStep(named(local.name), links);
    return { title: titleOf(facts, local), steps: [...steps, step] };
  });
}

/**
 * The means and scatters in a formula that the block works out nowhere else; of a formula that is nothing but a mean the
 * links of its line, so that they can stand in the formula's own.
 */
function unclaimedSteps(
  facts: Facts,
  formula: Expression,
): { readonly steps: readonly Step[]; readonly links: readonly StepLink[] } {
  const steps: Step[] = [];
  for (const key of namesIn(formula)) {
    const subject = facts.measurement.subjects.get(key);
    if (
      subject?.kind !== 'statistic' ||
      claimOf(facts, subject) !== null ||
      ownerOf(facts, subject)?.facts !== facts
    )
      continue;
    if (subject.statistic === 'mean') {
      const step = meanStep(facts, subject);
      if (step !== null) steps.push(step);
    }
    if (subject.statistic === 'mean absolute error' || subject.statistic === 'standard deviation')
      steps.push(...(scatterDerivation(facts, subject)?.steps ?? []));
  }
  const [only] = steps;
  const isMean = formula.kind === 'name' && steps.length === 1 && only?.kind === 'line';
  return { steps, links: isMean ? only.links.slice(0, -1) : [] };
}

function spelled(expression: Expression): string {
  return expressionText(expression).replace(/\s/g, '');
}

/** The formula in the names of the block; null for what is recorded as a number, a list or a letter. */
function formulaFor(facts: Facts, name: string): Expression | null {
  const record = facts.measurement.own.get(name);
  if (record !== undefined) {
    const given = record.kind === 'value' ? record.given.stated.expression : null;
    return given !== null && namesIn(given).size > 0 ? given : null;
  }
  const definition = definitionOf(facts, name);
  if (definition === null) return null;
  const { times } = definition.claim;
  const single = (formula: Expression): Expression =>
    times === null ? formula : joined('divide', formula, times);
  const traced = single(definitionExpression(facts, definition));
  return single(
    isWorth(facts, name, traced)
      ? withNames(facts, definitionExpression(facts, definition))
      : definition.stated.expression,
  );
}

function isWorth(facts: Facts, name: string, formula: Expression): boolean {
  const value = evaluateIn(facts, formula);
  const truth = facts.value({ kind: 'own', name, row: null, block: null });
  return value.ok && truth.ok && Q.equals(value.quantity, truth.quantity);
}

/** Where a formula was typed as mere numbers, the names of what they stand for. */
function withNames(facts: Facts, formula: Expression): Expression {
  return rewrite(formula, part => {
    if (part.kind !== 'name' || !/^[-−]?\d/.test(part.text)) return null;
    const subject = facts.measurement.subjects.get(part.key);
    return subject === undefined ? null : { ...part, text: nameIn(facts, subject) };
  });
}
