import { adoptGivens } from '../language/adopt.ts';
import { readFenceHeader } from '../language/fence-header.ts';
import { readNote } from '../language/fences.ts';
import { interpretNote } from '../language/interpret.ts';
import { parseBlock } from '../language/parser.ts';
import { withUsedBlocks } from '../language/uses.ts';
import { judgeNote } from './judge.ts';
import type { NoteCheck } from './note-check.ts';

/**
 * A note taken apart and judged: its blocks, what their records determine, and a verdict on each claim.
 *
 * `text` is the whole Markdown note. Null where nothing of it concerns us.
 */
export function examineNote(text: string): NoteCheck | null {
  const structure = readNote(text);
  const problems = structure.problems ?? [];
  if (structure.fences.length === 0 && problems.length === 0) return null;
  const blocks = structure.fences.map(fence => ({
    block: parseBlock(fence),
    header: readFenceHeader(fence.info, fence.infoSpan.start),
  }));
  const { measurements, assumed, facts } = adoptGivens(
    withUsedBlocks(interpretNote(blocks, structure.codeSpans)),
  );
  return {
    text,
    problems,
    measurements,
    fences: blocks.length,
    facts,
    assumed,
    verdicts: judgeNote(measurements, facts, assumed),
  };
}
