import { definitionOf, tracedDefinition } from '../language/facts-own.ts';
import type { Claim } from '../language/measurement.ts';
import type { Judging } from './judge.ts';

/** Numbers of a defining formula that stand for nothing in the block. */
export function reportUntraced(judging: Judging, block: number, claim: Claim): void {
  if (claim.subject.kind !== 'own') return;
  const facts = judging.facts.block(block);
  const definition = definitionOf(facts, claim.subject.name);
  if (definition === null || definition.claim !== claim || !definition.isNumbers) return;
  const { untraced } = tracedDefinition(facts, definition);
  if (untraced.length === 0) return;
  const numbers = untraced.map(literal => ({
    text: literal.text,
    span: definition.stated.spans.get(literal) ?? definition.stated.span,
  }));
  judging.verdicts.push({
    block,
    claim,
    link: null,
    span: definition.stated.span,
    kind: 'untraced',
    numbers,
  });
}
