import type { NoteCheck } from '../checks/note-check.ts';
import { isHere } from '../checks/record-lacks.ts';
import { mayTell } from '../checks/settings.ts';
import { type Facts, withBlock } from '../language/facts.ts';
import type { Measurement, Subject } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
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
  if (!mayTell(near.check().settings)) return [];
  const facts = near.check().facts.block(block);
  return [
    ...answerHints(facts),
    ...leastCountHints(near, block, facts),
    ...zeroErrorHints(near.check(), facts),
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

/** Beside the last line of the scales. None where the block says it itself: if it is wrong there, that is found fault with. */
function leastCountHints(near: NearBlocks, block: number, facts: Facts): readonly Hint[] {
  const { measurement } = facts;
  const value = isStated(measurement, 'least count') ? null : valueText(near.check(), facts, LEAST_COUNT);
  const places = scaleSpans(measurement).filter(span => isHere(measurement, span));
  const last = value === null ? undefined : places.sort((a, b) => a.start - b.start).at(-1);
  if (value === null || last === undefined) return [];
  // A number of divisions is only a part of its line.
  const line = near.blocks[block]?.statements.find(
    ({ span }) => span.start <= last.start && last.end <= span.end,
  );
  return [{ kind: 'leastCount', offset: (line?.span ?? last).end, text: `LC = ${value}`, length: 0 }];
}

/** Where the scales are recorded: by equations, numbers of divisions, or the pitch. */
function scaleSpans({ scales, counts, givens }: Measurement): Span[] {
  const pitch = givens.get('pitch');
  return [
    ...scales.map(({ span }) => span),
    ...[...counts.values()].map(({ span }) => span),
    ...(pitch === undefined ? [] : [pitch.span]),
  ];
}

/** Each zero check's own error; the block's is their mean. None where the block says that of its only one. */
function zeroErrorHints(check: NoteCheck, facts: Facts): readonly Hint[] {
  const { measurement } = facts;
  if (measurement.closed.length === 1 && isStated(measurement, 'zero error')) return [];
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

/** Whether a line of the block itself gives a term's value, as worked out or as known. */
function isStated(measurement: Measurement, term: 'least count' | 'zero error'): boolean {
  const given = measurement.givens.get(term);
  if (given !== undefined && isHere(measurement, given.span)) return true;
  return measurement.claims.some(
    ({ subject, links }) =>
      subject.kind === 'term' &&
      subject.term === term &&
      subject.block === null &&
      links.some(({ content }) => content.kind === 'stated'),
  );
}

const LEAST_COUNT: Subject = { kind: 'term', term: 'least count', row: null, block: null };
const ZERO_ERROR: Subject = { kind: 'term', term: 'zero error', row: null, block: null };
