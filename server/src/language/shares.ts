import { rewrite } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import type { Lack } from './answer.ts';
import type { Subject } from './measurement.ts';
import { subjectKey } from './names.ts';

type Names = ReadonlyMap<string, Subject>;

/** Whether a value is lacking since it would be a root of letters, which no formula of ours can be. */
export function isRootOfLetters(lack: Lack | null): boolean {
  return lack?.kind === 'trouble' && lack.trouble.kind === 'root-of-letters';
}

/**
 * A formula with the relative error of a quantity for its error over itself, which may be known where neither of them is:
 * `ΔT/T` of `T = 2π sqrt(L/g)`, in letters. Null where no such share stands in it.
 */
export function sharesIn(
  expression: Expression,
  names: Names,
): { readonly expression: Expression; readonly names: Names } | null {
  const found = new Map<string, Subject>();
  const replaced = rewrite(expression, part => {
    if (part.kind !== 'divide') return null;
    const { left, right } = part;
    // `2 ΔT/T` is twice the error, over T.
    const [times, error] = left.kind === 'multiply' ? [left.left, left.right] : [null, left];
    const of = ofShare(error, right, names);
    if (of === null) return null;
    const share: Subject = { kind: 'statistic', statistic: 'relative error', of, from: null };
    const key = subjectKey(share);
    found.set(key, share);
    const name: Expression = { kind: 'name', key, text: key };
    return times === null ? name : { kind: 'multiply', left: times, right: name };
  });
  return found.size === 0 ? null : { expression: replaced, names: new Map([...names, ...found]) };
}

/** The quantity whose error stands over itself; null for any other fraction. */
function ofShare(above: Expression, below: Expression, names: Names): Subject | null {
  const error = above.kind === 'name' ? names.get(above.key) : undefined;
  if (below.kind !== 'name' || error?.kind !== 'statistic' || error.statistic !== 'absolute error')
    return null;
  return subjectKey(error.of) === below.key ? error.of : null;
}
