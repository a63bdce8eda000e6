import { divisionSources } from '../engine/scales.ts';
import { type Answer, lacking } from '../language/answer.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import { type Facts, withBlock } from '../language/facts.ts';
import { divisionAnswer, scaleLeastCount } from '../language/facts-divisions.ts';
import type { Given, Measurement } from '../language/measurement.ts';
import type { ComputedTerm } from '../language/term-names.ts';
import { shownValue } from '../render/shown-value.ts';
import { agrees, comparable } from './agreement.ts';
import type { Finding } from './finding.ts';
import { findingAt } from './finding-from.ts';
import { placeOf } from './link-value.ts';
import type { NoteCheck } from './note-check.ts';
import { isHere } from './record-lacks.ts';
import type { Rule } from './rule.ts';
import { lacksAngleUnit } from './without-unit.ts';

/** Given values that differ from what the other records of the block make them. */
export function disagreeingGivens(rule: Rule, note: NoteCheck): readonly Finding[] {
  const findings: Finding[] = [];
  for (const facts of note.facts.blocks()) {
    for (const [term, given] of facts.measurement.givens) {
      if (!isHere(facts.measurement, given.span)) continue;
      const finding = disagreement(rule, note, facts, term, given);
      if (finding !== null) findings.push(finding);
    }
  }
  return findings;
}

function disagreement(
  rule: Rule,
  note: NoteCheck,
  facts: Facts,
  term: ComputedTerm,
  given: Given,
): Finding | null {
  const stated = evaluateIn(facts, given.stated.expression);
  const right = withoutGiven(note, facts, term);
  if (!stated.ok || !right.ok) return null;
  const { measurement } = facts;
  const subject = { kind: 'term', term, row: null, block: null } as const;
  const pair = lacksAngleUnit(given.stated, stated.quantity, right.quantity)
    ? null
    : comparable(right.quantity, stated.quantity);
  if (
    pair !== null &&
    agrees(facts, subject, right.quantity, {
      quantity: stated.quantity,
      place: placeOf(given.stated.expression),
    })
  )
    return null;
  const shown = shownValue(pair?.truth ?? right.quantity, {
    unit: stated.quantity.unit,
    signed: term === 'zero error' || term === 'zero correction',
  });
  return findingAt(rule, measurement, given.stated.span, {
    message: `the ${term} is given as ${given.stated.text}, but the other records of this block make it ${shown}; those are used`,
    term,
    stated: given.stated.text,
    computed: shown,
    fixes: [{ title: `Write ${shown}`, edits: [{ span: given.stated.span, newText: shown }], sure: false }],
  });
}

/** What the block makes of a term when its given value is left out. */
function withoutGiven(note: NoteCheck, facts: Facts, term: ComputedTerm): Answer {
  const givens = new Map(facts.measurement.givens);
  givens.delete(term);
  // Of a zero error and a correction that differ the correction is the one that is worked out.
  if (term === 'zero error') givens.delete('zero correction');
  // Of a pitch and a least count that differ the least count is the one that is worked out.
  if (term === 'pitch') givens.delete('least count');
  const without: Measurement = { ...facts.measurement, givens };
  const other = withBlock(note.facts, facts.index, without);
  const { scales, usualSource } = other.scales();
  const isUsual = (division: 'rotation' | 'circular'): boolean =>
    usualSource !== null && divisionSources(scales, division).includes(usualSource);
  // What only holds where nothing says otherwise gives way to what is given.
  if (term === 'pitch')
    return isUsual('rotation') ? lacking({ kind: 'reported' }) : divisionAnswer(other, 'rotation');
  if (term === 'least count' && isUsual('circular') && scaleIsScrew(other))
    return lacking({ kind: 'reported' });
  if (term === 'least count') return scaleLeastCount(other) ?? lacking({ kind: 'reported' });
  return other.term(term);
}

function scaleIsScrew(facts: Facts): boolean {
  const { hasCircular, hasVernier } = facts.scales();
  return hasCircular && !hasVernier;
}
