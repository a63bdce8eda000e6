import { noteReport, stretchOf } from '../../checks/note-report.ts';
import type { Summary } from '../summary.ts';
import type { Reporter } from './reporter.ts';
import { type Shown, shownFindings } from './shown-findings.ts';

/**
 * The facts for programs: one JSON document, a note a line, so that a bank of any size streams.
 * With `waived` the waived findings are listed too, and every finding then tells its waiver's reason.
 */
export function jsonReporter(options: Shown): Reporter {
  let separator = '\n';
  return {
    opening: '{"version":1,"notes":[',
    note: (path, text, note) => {
      const shown = { ...note, findings: shownFindings(note, options) };
      return asJson({ path, ...noteReport(text, shown, options.waived, stretchOf) });
    },
    add: piece => {
      const line = separator + piece;
      separator = ',\n';
      return line;
    },
    closing: summary => `\n],"summary":${asJson(summaryFacts(summary, options.waived))}}\n`,
  };
}

function summaryFacts(summary: Summary, withWaived: boolean): object {
  const { notes, blocks, claims, errors, warnings, waived, old } = summary;
  const counts = { notes, blocks, claims, errors, warnings };
  return { ...counts, ...(withWaived ? { waived } : {}), ...(old === null ? {} : { old }) };
}

/**
 * What JSON allows in a string but a terminal must not get: DEL, C1, separators, marks of the writing direction. And the
 * signs by which a build host knows a command to itself, wherever they stand in a line.
 */
const UNSAFE_IN_A_TERMINAL =
  /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]|#(?=#(?:vso|teamcity)?\[)/g;

export function asJson(facts: object): string {
  return JSON.stringify(facts).replace(
    UNSAFE_IN_A_TERMINAL,
    character => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
