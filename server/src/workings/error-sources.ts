import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { errorTerms, formulaOf, gradientOf, leafKey, ownerOf } from '../language/facts-error.ts';
import { type Leaf, leafError } from '../language/leaf-error.ts';
import { leafPowers } from '../language/leaf-powers.ts';
import type { Subject } from '../language/measurement.ts';
import { nameFrom, nameIn } from './subject-name.ts';

/** One measured thing that an error comes from. */
export interface ErrorSource {
  readonly leaf: Leaf;
  /** As the block calls it: `m`, `corrected reading of outside`. */
  readonly name: string;
  /** How the result changes with it: ∂f/∂x. */
  readonly slope: Q.Quantity;
  /** Its own error, of a mean of readings that of the mean. */
  readonly error: Q.Quantity;
  /** |∂f/∂x|·Δx. */
  readonly share: Q.Quantity;
  /** Its power in a product of powers; null where the formula is none. */
  readonly power: R.Rational | null;
  /** Of how many rows' readings it is the mean; 1 for a single value. */
  readonly count: number;
}

export type SourceMode = 'worst' | 'standard';

/** Deeper formulas of formulas are not looked into. */
const DEEPEST = 20;

/** Where the error of a subject comes from; null where the block does not determine it. */
export function errorSources(facts: Facts, of: Subject, mode: SourceMode): readonly ErrorSource[] | null {
  const found = errorTerms(facts, of, mode);
  if (!found.ok) return null;
  const names = namesOfLeaves(facts, of);
  const powers = leafPowers(facts, of, 0);
  const single = found.terms.map(
    ({ leaf, slope, error, size }): ErrorSource => ({
      leaf,
      name: names.get(leafKey(leaf)) ?? nameFrom(facts, leaf.facts, leaf.subject),
      slope,
      error,
      share: size,
      power: powers?.get(leafKey(leaf))?.power ?? null,
      count: 1,
    }),
  );
  return meansTogether(facts, of, single, names, powers, mode);
}

type Names = ReadonlyMap<string, string>;
type Powers = ReturnType<typeof leafPowers>;

/** The rows of a mean are one source again: the mean. */
function meansTogether(
  facts: Facts,
  of: Subject,
  sources: readonly ErrorSource[],
  names: Names,
  powers: Powers,
  mode: SourceMode,
): readonly ErrorSource[] {
  const result: ErrorSource[] = [];
  const done = new Set<number>();
  for (const source of sources) {
    const { leaf } = source;
    const mean =
      leaf.subject.kind === 'term' && leaf.subject.row !== null ? meanReached(facts, of, leaf.facts) : null;
    const rows = leaf.facts.measurement.rows.length;
    const group = sources.filter(other => isRowOf(other, leaf.facts) && Q.equals(other.slope, source.slope));
    const together = mean === null || group.length !== rows ? null : joined(source, mean, rows, mode);
    if (together === null || mean === null) {
      result.push(source);
      continue;
    }
    if (done.has(leaf.facts.index)) continue;
    done.add(leaf.facts.index);
    const key = leafKey({ facts: leaf.facts, subject: mean });
    result.push({
      ...together,
      name: names.get(key) ?? nameFrom(facts, leaf.facts, mean),
      power: powers?.get(key)?.power ?? null,
    });
  }
  return result;
}

function isRowOf({ leaf }: ErrorSource, facts: Facts): boolean {
  return leaf.facts === facts && leaf.subject.kind === 'term' && leaf.subject.row !== null;
}

/** Worst case: the mean may be as wrong as each reading. Standard: u / sqrt(n), since single errors partly cancel. */
function joined(source: ErrorSource, mean: Subject, rows: number, mode: SourceMode): ErrorSource | null {
  const slope = Q.multiply(source.slope, Q.plain(R.rational(rows)));
  const root = mode === 'worst' ? Q.plain(R.ONE) : rootOf(rows);
  const error = root === null ? null : Q.divide(source.error, root);
  const share = slope.ok && error?.ok ? Q.multiply(slope.quantity, error.quantity) : null;
  const size = share?.ok ? Q.abs(share.quantity) : null;
  if (!slope.ok || !error?.ok || !size?.ok) return null;
  return {
    ...source,
    leaf: { facts: source.leaf.facts, subject: mean },
    slope: slope.quantity,
    error: error.quantity,
    share: size.quantity,
    count: rows,
  };
}

function rootOf(count: number): Q.Quantity | null {
  const root = Q.sqrt(Q.plain(R.rational(count)));
  return root.ok ? root.quantity : null;
}

/** The mean of a block's readings that a subject rests on; null where it rests on none, or on both. */
function meanReached(facts: Facts, of: Subject, inside: Facts): Subject | null {
  const means = new Map<string, Subject>();
  walk(facts, of, (home, subject) => {
    if (home === inside && subject.kind === 'term' && subject.term.startsWith('mean '))
      means.set(subject.term, subject);
  });
  const [only] = means.values();
  return only !== undefined && means.size === 1 ? only : null;
}

/** What the measured things are called in the block that works with them: by its own symbol where it has one. */
export function namesOfLeaves(facts: Facts, of: Subject): Names {
  const names = new Map<string, string>();
  walk(facts, of, (home, subject, alias) => {
    const key = leafKey({ facts: home, subject });
    if (!names.has(key)) names.set(key, alias ?? nameFrom(facts, home, subject));
  });
  return names;
}

/** Goes through all that a subject is worked out from, down to what was measured. */
function walk(
  facts: Facts,
  of: Subject,
  see: (home: Facts, subject: Subject, alias: string | null) => void,
): void {
  const seen = new Set<string>();
  const visit = (inside: Facts, subject: Subject, alias: string | null, depth: number): void => {
    const owner = ownerOf(inside, subject);
    if (owner === null || depth > DEEPEST) return;
    const key = leafKey({ facts: owner.facts, subject: owner.subject });
    if (seen.has(key)) return;
    seen.add(key);
    const formula = formulaOf(owner.facts, owner.subject);
    if (formula === null) {
      see(owner.facts, owner.subject, alias);
      return;
    }
    const isAlias = formula.kind === 'name';
    const name = alias ?? (owner.facts === facts ? nameIn(facts, owner.subject) : null);
    for (const part of namesIn(formula)) {
      const named = owner.facts.measurement.subjects.get(part);
      if (named !== undefined) visit(owner.facts, named, isAlias ? name : null, depth + 1);
    }
  };
  visit(facts, of, null, 0);
}

/** What counts as exact because nothing was recorded with it: `l`. */
export function exactNames(facts: Facts, of: Subject, mode: SourceMode): readonly string[] {
  const gradient = gradientOf(facts, of);
  if (!gradient.ok) return [];
  const names = namesOfLeaves(facts, of);
  return [...gradient.gradient.values()].flatMap(({ leaf }) => {
    const error = leafError(leaf, mode);
    const isRecorded = leaf.subject.kind === 'own';
    if (!isRecorded || !error.ok || !S.isZero(error.quantity.scalar)) return [];
    return [names.get(leafKey(leaf)) ?? nameFrom(facts, leaf.facts, leaf.subject)];
  });
}

/** Whether a subject is a sum of parts, each with a fixed factor: its error is the sum of theirs, so weighed. */
export function isLinear(facts: Facts, of: Subject, depth = 0): boolean {
  const owner = ownerOf(facts, of);
  if (owner === null || depth > DEEPEST) return false;
  const formula = formulaOf(owner.facts, owner.subject);
  if (formula === null) return true;
  const parts = [...namesIn(formula)].map(key => owner.facts.measurement.subjects.get(key));
  return (
    isSumOfNames(formula) && parts.every(part => part !== undefined && isLinear(owner.facts, part, depth + 1))
  );
}

function isSumOfNames(formula: Expression): boolean {
  if (namesIn(formula).size === 0 || formula.kind === 'name') return true;
  switch (formula.kind) {
    case 'negate':
    case 'measured':
      return isSumOfNames(formula.of);
    case 'add':
    case 'subtract':
      return isSumOfNames(formula.left) && isSumOfNames(formula.right);
    case 'multiply':
      return (
        (namesIn(formula.left).size === 0 || namesIn(formula.right).size === 0) &&
        isSumOfNames(formula.left) &&
        isSumOfNames(formula.right)
      );
    case 'divide':
      return namesIn(formula.right).size === 0 && isSumOfNames(formula.left);
    case 'call':
      return formula.name === 'mean' && formula.arguments.every(isSumOfNames);
    default:
      return false;
  }
}
