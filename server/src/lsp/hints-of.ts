import type { NoteCheck } from '../checks/note-check.ts';
import { isHere } from '../checks/record-lacks.ts';
import { mayTell } from '../checks/settings.ts';
import { type Facts, withBlock } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { openValue } from '../workings/open-value.ts';
import type { HintSettings } from './feature-settings.ts';
import type { NearBlocks } from './near-blocks.ts';
import { valueText } from './value-text.ts';

/** A value shown in a note where nobody wrote it. */
export interface Hint {
  readonly kind: keyof HintSettings;
  /** It stands behind this place. */
  readonly offset: number;
  readonly text: string;
  /** How many characters before it stand for it, so that it can be written there: those of `?`. */
  readonly length: number;
}

/** The hints of one block, in its order. A student gets none. */
export function hintsOf(near: NearBlocks, block: number): readonly Hint[] {
  if (!mayTell(near.check.settings)) return [];
  const facts = near.check.facts.block(block);
  return [
    ...answerHints(facts),
    ...leastCountHints(near.check, facts),
    ...zeroErrorHints(near.check, facts),
  ].sort((a, b) => a.offset - b.offset);
}

/** The value beside `= ?`, in a line and in a cell. */
function answerHints(facts: Facts): readonly Hint[] {
  return facts.measurement.claims.flatMap(claim => {
    const asked = claim.links.find(({ content }) => content.kind === 'asked');
    const text = asked === undefined ? null : openValue(facts, claim, asked);
    if (asked === undefined || text === null) return [];
    const { start, end } = asked.span;
    return [{ kind: 'answers', offset: end, text, length: end - start }];
  });
}

function leastCountHints(check: NoteCheck, facts: Facts): readonly Hint[] {
  const { measurement } = facts;
  const last = measurement.scales.findLast(({ span }) => isHere(measurement, span));
  const value = last && valueText(check, facts, LEAST_COUNT);
  return last && value
    ? [{ kind: 'leastCount', offset: last.span.end, text: `LC = ${value}`, length: 0 }]
    : [];
}

const LEAST_COUNT: Subject = { kind: 'term', term: 'least count', row: null, block: null };
const ZERO_ERROR: Subject = { kind: 'term', term: 'zero error', row: null, block: null };

/** Each zero check's own error; the block's is their mean. */
function zeroErrorHints(check: NoteCheck, facts: Facts): readonly Hint[] {
  const { measurement } = facts;
  return measurement.closed.flatMap(closed => {
    if (!isHere(measurement, closed.span)) return [];
    const alone =
      measurement.closed.length === 1
        ? facts
        : withBlock(facts.note, facts.index, { ...measurement, closed: [closed] });
    const text = valueText(check, alone, ZERO_ERROR);
    return text === null
      ? []
      : [{ kind: 'zeroError', offset: closed.span.end, text: `zero error ${text}`, length: 0 }];
  });
}
