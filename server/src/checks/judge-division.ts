import { withEquation } from '../engine/scales.ts';
import { divisionEquation } from '../language/adopt.ts';
import type { Claim } from '../language/measurement.ts';
import type { Judging } from './judge.ts';

/**
 * Judges a claim about the scales where no length is known: `10 VSD = 9 MSD` beside `vernier scale: 20 VSD = 18 MSD`.
 *
 * True when the scales settle it, so that nothing is missing.
 */
export function judgeDivisionClaim(judging: Judging, block: number, claim: Claim): boolean {
  const facts = judging.facts.block(block);
  if (judging.assumed.has(claim)) return true;
  const { scales, spans } = facts.scales();
  let settled = false;
  for (const link of claim.links) {
    if (link.content.kind !== 'stated') continue;
    const equation = divisionEquation(facts, claim, link.content.stated);
    if (equation === null) return false;
    const extended = withEquation(scales, { ...equation, source: spans.length });
    if (extended.rows.length > scales.rows.length) return false;
    settled = true;
    const trouble = extended.troubles[scales.troubles.length];
    if (trouble === undefined) continue;
    const against = 'against' in trouble ? (spans[trouble.against] ?? null) : null;
    judging.verdicts.push({ block, claim, link, span: link.span, kind: 'excluded', against });
  }
  return settled;
}
