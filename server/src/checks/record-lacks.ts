import { namesIn } from '../engine/evaluation.ts';
import type { Lack } from '../language/answer.ts';
import { readingsOf } from '../language/facts-position.ts';
import { observationSpan } from '../language/facts-reading.ts';
import { closedValue } from '../language/facts-zero.ts';
import type { Measurement, RowNumber, Subject } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
import type { NoteCheck } from './note-check.ts';
import { oncePerNote } from './once-per-note.ts';

export interface RecordLack {
  readonly measurement: Measurement;
  readonly span: Span;
  readonly lack: Lack;
  readonly subject: Subject | null;
}

/** Records that cannot be worked out: an own quantity whose formula fails. */
export const recordLacks = oncePerNote(findRecordLacks);

function findRecordLacks(note: NoteCheck): readonly RecordLack[] {
  const lacks: RecordLack[] = [];
  for (const facts of note.facts.blocks()) {
    const { measurement } = facts;
    for (const [name, record] of measurement.own) {
      if (record.kind !== 'value' || !isHere(measurement, record.given.span)) continue;
      const { stated } = record.given;
      if (namesIn(stated.expression).size === 0 && stated.isValue) continue;
      const subject: Subject = { kind: 'own', name, row: null, block: null };
      const answer = facts.value(subject);
      if (!answer.ok) lacks.push({ measurement, span: stated.span, lack: answer.lack, subject });
    }
    for (const [term, given] of measurement.givens) {
      if (given.stated.isValue || !isHere(measurement, given.span)) continue;
      const answer = facts.term(term);
      if (!answer.ok)
        lacks.push({
          measurement,
          span: given.stated.span,
          lack: answer.lack,
          subject: { kind: 'term', term, row: null, block: null },
        });
    }
    for (const { span, trouble } of facts.scales().formTroubles) {
      // A bare number is a missing unit, which is said by its own rule.
      if (!isHere(measurement, span) || trouble.kind === 'bare-number') continue;
      const lack: Lack =
        trouble.kind === 'lack'
          ? trouble.lack
          : {
              kind: 'missing',
              message:
                'this side is no sum of divisions and lengths, so the scale cannot be worked out from it',
            };
      lacks.push({ measurement, span, lack, subject: null });
    }
  }
  return lacks;
}

/** Whether a record stands in the block itself rather than in one that it uses. */
export function isHere(measurement: Measurement, span: Span): boolean {
  return measurement.fence.span.start <= span.start && span.end <= measurement.fence.span.end;
}

export interface ReadingLack {
  readonly measurement: Measurement;
  readonly row: number | string | null;
  readonly span: Span;
  readonly lack: Lack;
}

/** Readings, and zero checks, whose observations give no single position. */
export const readingLacks = oncePerNote(findReadingLacks);

function findReadingLacks(note: NoteCheck): readonly ReadingLack[] {
  const lacks: ReadingLack[] = [];
  for (const facts of note.facts.blocks()) {
    const { measurement } = facts;
    const rows: RowNumber[] = measurement.rows.length > 0 ? measurement.rows.map(row => row.number) : [null];
    for (const row of rows) {
      const readings = readingsOf(facts, row);
      const span = observationSpan(readings);
      if (span === null || !isHere(measurement, span)) continue;
      const answer = facts.term('observed reading', row);
      const label = row === null ? null : (measurement.rows[row - 1]?.label ?? row);
      if (!answer.ok) lacks.push({ measurement, row: label, span, lack: answer.lack });
    }
    for (const closed of measurement.closed) {
      if (!isHere(measurement, closed.span)) continue;
      const answer = closedValue(facts, closed);
      if (!answer.ok) lacks.push({ measurement, row: null, span: closed.valueSpan, lack: answer.lack });
    }
  }
  return lacks;
}
