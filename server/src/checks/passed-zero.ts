import { partsOf, rewrite } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { unitWord } from '../engine/unit.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { definitionOf } from '../language/facts-own.ts';
import type { Stated } from '../language/measurement.ts';
import type { Fix } from '../language/problem.ts';
import { joinSpans, type Span } from '../language/syntax.ts';
import { agrees } from './agreement.ts';
import { rightText, statedText, valueSpan } from './finding-from.ts';
import type { NoteCheck } from './note-check.ts';
import type { Verdict } from './verdict.ts';

/** Why a value of the circle does not follow from its formula, and how the formula would say so. */
export interface PassedZero {
  readonly because: string;
  readonly fixes: readonly Fix[];
}

/**
 * `D = observed reading of A1 - observed reading of A2 = 38° 22′` with 5° 14′ and 326° 52′: the zero of the circle lies
 * between the two angles, which the difference of -321° 38′ does not reckon with. What was meant only its writer knows.
 *
 * Null where nothing in the formula passes the zero, or the value has nothing to do with it.
 */
export function passedZero(
  note: NoteCheck,
  verdict: Extract<Verdict, { readonly kind: 'wrong' }>,
): PassedZero | null {
  const { claim, link, stated } = verdict;
  const facts = note.facts.block(verdict.block);
  if (claim.subject.kind !== 'own' || link === null || verdict.part === 'error') return null;
  const first = claim.links.find(({ content }) => content.kind === 'stated')?.content;
  if (first?.kind !== 'stated' || first.stated.isValue) return null;
  const whole = first.stated.expression;
  const wide = wideDifferences(facts, whole);
  const [part] = wide;
  if (part === undefined || wide.length > 1) return null;
  if (definitionOf(facts, claim.subject.name)?.claim !== claim) return null;
  const isBelow = part.sign < 0;
  const on = rewrite(whole, other =>
    other === part.expression ? (isBelow ? modOf(part.expression) : restOf(part.expression)) : null,
  );
  const value = evaluateIn(facts, on);
  if (!value.ok) return null;
  const between = 'the zero of the circle lies between the two angles, and';
  const fixes = claim.mended ? [] : formulaFixes(note, verdict, first.stated, part.expression, isBelow);
  if (agrees(facts, claim.subject, value.quantity, stated)) {
    return {
      because: isBelow
        ? `${between} mod(…, 360°) reckons with it`
        : `${between} the formula does not take their difference from 360°`,
      fixes,
    };
  }
  // A positive angle for a negative difference was meant on the circle, even where it was not worked out rightly.
  if (!isBelow || S.sign(stated.quantity.scalar) !== 1) return null;
  const right = rightText(facts, claim, value.quantity, stated, statedText(note, verdict));
  const instead = { span: valueSpan(verdict), newText: right };
  return {
    because: `${between} mod(…, 360°), which reckons with it, gives ${right}`,
    fixes: fixes.map(fix => ({ ...fix, title: `${fix.title} and ${right}`, edits: [...fix.edits, instead] })),
  };
}

const CIRCLE: Expression = {
  kind: 'literal',
  quantity: Q.quantity(R.rational(360), unitWord('deg')!),
  place: null,
  text: '360°',
};
const HALF_CIRCLE = R.rational(180);

function modOf(part: Expression): Expression {
  return { kind: 'call', name: 'mod', arguments: [part, CIRCLE] };
}

function restOf(part: Expression): Expression {
  return { kind: 'subtract', left: CIRCLE, right: part };
}

interface Wide {
  readonly expression: Expression;
  readonly sign: -1 | 0 | 1;
}

/** The differences of angles in a formula that are more than half a circle, but for those that `mod` takes care of. */
function wideDifferences(facts: Facts, expression: Expression): readonly Wide[] {
  if (expression.kind === 'call' && expression.name === 'mod') return [];
  const inner = partsOf(expression).flatMap(part => wideDifferences(facts, part));
  if (expression.kind !== 'subtract' || inner.length > 0) return inner;
  const value = evaluateIn(facts, expression);
  const degrees =
    value.ok && value.quantity.dimension.angle === 1 ? S.realValue(value.quantity.scalar) : null;
  return degrees === null || R.compare(R.abs(degrees), HALF_CIRCLE) <= 0
    ? []
    : [{ expression, sign: R.sign(degrees) }];
}

/** The formula with the zero reckoned with; right links between it and the value would be wrong then, and go. */
function formulaFixes(
  { text }: NoteCheck,
  { claim, link }: Extract<Verdict, { readonly kind: 'wrong' }>,
  stated: Stated,
  part: Expression,
  isBelow: boolean,
): readonly Fix[] {
  const span = part === stated.expression ? stated.span : spanOf(stated, part);
  const typed = span === null ? '' : text.slice(span.start, span.end);
  if (span === null || link === null || !isBalanced(typed)) return [];
  const plain = isBelow ? `mod(${typed}, 360°)` : `360° - (${typed})`;
  const newText = isBelow || part === stated.expression ? plain : `(${plain})`;
  const before = claim.links[claim.links.indexOf(link) - 1];
  const between = { start: stated.span.end, end: before?.span.end ?? stated.span.end };
  const edits = [{ span, newText }, ...(between.end > between.start ? [{ span: between, newText: '' }] : [])];
  return [{ title: `Write ${newText}`, edits, sure: false }];
}

/** From the first number or name of a part to its last. */
function spanOf(stated: Stated, part: Expression): Span | null {
  const own = stated.spans.get(part);
  if (own !== undefined) return own;
  const inside = partsOf(part).map(inner => spanOf(stated, inner));
  return inside.reduce<Span | null>(
    (whole, span) => (whole === null || span === null ? (whole ?? span) : joinSpans(whole, span)),
    null,
  );
}

function isBalanced(text: string): boolean {
  let depth = 0;
  for (const sign of text) {
    if (sign === '(') depth += 1;
    if (sign === ')') depth -= 1;
    if (depth < 0) return false;
  }
  return depth === 0;
}
