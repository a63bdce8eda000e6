import { adoptGivens } from '../language/adopt.ts';
import { readFenceHeader } from '../language/fence-header.ts';
import { readNote } from '../language/fences.ts';
import { interpretNote } from '../language/interpret.ts';
import type { Measurement } from '../language/measurement.ts';
import { parseBlock } from '../language/parser.ts';
import { withUsedBlocks } from '../language/uses.ts';
import { RULES } from './all.ts';
import type { CheckedBlock, CheckedNote, Finding } from './finding.ts';
import { judgeNote } from './judge.ts';
import type { NoteCheck } from './note-check.ts';
import { reportedQuantities } from './reported-quantities.ts';
import { applyWaivers } from './waivers.ts';

/**
 * Checks a note: every stated least count, reading, correction and result against what the records make it.
 *
 * `text` is the whole Markdown note; spans are offsets into it. Never throws on anything that a note may hold.
 */
export function checkNote(text: string): CheckedNote {
  const structure = readNote(text);
  const problems = structure.problems ?? [];
  if (structure.fences.length === 0 && problems.length === 0) return { blocks: [], findings: [] };
  const blocks = structure.fences.map(fence => ({
    block: parseBlock(fence),
    header: readFenceHeader(fence.info, fence.infoSpan.start),
  }));
  const { measurements, assumed, facts } = adoptGivens(
    withUsedBlocks(interpretNote(blocks, structure.codeSpans)),
  );
  const note: NoteCheck = {
    text,
    problems,
    measurements,
    facts,
    assumed,
    verdicts: judgeNote(measurements, facts, assumed),
  };
  const findings = RULES.flatMap(rule => rule.run(note));
  const checked = facts.blocks.slice(0, blocks.length).map(
    (block): CheckedBlock => ({
      name: block.measurement.name,
      span: block.measurement.fence.span,
      // Only programs ask for them, so they are worked out when they do.
      get quantities() {
        return reportedQuantities(block);
      },
      claims: claimCount(block.measurement),
    }),
  );
  return { blocks: checked, findings: inOrder(applyWaivers(note, findings)) };
}

/** Claims that state something; `= ?` only asks. */
function claimCount(measurement: Measurement): number {
  return measurement.claims.filter(claim => claim.links.some(link => link.content.kind === 'stated')).length;
}

function inOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort(
    (a, b) =>
      a.span.start - b.span.start ||
      a.span.end - b.span.end ||
      (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  );
}
