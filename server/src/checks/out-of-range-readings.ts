import * as Q from '../engine/quantity.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import { readingsOf } from '../language/facts-position.ts';
import { observationSpan } from '../language/facts-reading.ts';
import type { RowNumber } from '../language/measurement.ts';
import { shownValue } from '../render/shown-value.ts';
import type { Finding } from './finding.ts';
import { findingAt } from './finding-from.ts';
import type { NoteCheck } from './note-check.ts';
import { isHere } from './record-lacks.ts';
import type { Rule } from './rule.ts';

/** Readings outside the measuring range that the block records. */
export function outOfRangeReadings(rule: Rule, note: NoteCheck): readonly Finding[] {
  const findings: Finding[] = [];
  for (const facts of note.facts.blocks()) {
    const { measurement } = facts;
    if (measurement.range === null) continue;
    const from = evaluateIn(facts, measurement.range.from.expression);
    const to = evaluateIn(facts, measurement.range.to.expression);
    if (!from.ok || !to.ok) continue;
    const rows: RowNumber[] = measurement.rows.length > 0 ? measurement.rows.map(row => row.number) : [null];
    for (const row of rows) {
      const reading = facts.term('observed reading', row);
      const readings = readingsOf(facts, row);
      const mark = readings.get('main scale reading') ?? readings.get('linear scale reading');
      const span = mark?.valueSpan ?? observationSpan(readings);
      if (!reading.ok || span === null || !isHere(measurement, span)) continue;
      const low = Q.compare(reading.quantity, from.quantity);
      const high = Q.compare(reading.quantity, to.quantity);
      if (low !== -1 && high !== 1) continue;
      const shown = shownValue(reading.quantity);
      findings.push(
        findingAt(rule, measurement, span, {
          message: `the reading is ${shown}, but the instrument shows ${measurement.range.from.text} to ${measurement.range.to.text} only`,
          term: 'observed reading',
          row: row === null ? null : (measurement.rows[row - 1]?.label ?? row),
          computed: shown,
          related: isHere(measurement, measurement.range.span)
            ? [{ span: measurement.range.span, message: 'the measuring range' }]
            : [],
        }),
      );
    }
  }
  return findings;
}
