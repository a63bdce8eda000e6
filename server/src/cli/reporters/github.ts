import type { Finding } from '../../checks/finding.ts';
import { type LineIndex, lineIndex } from '../../checks/line-index.ts';
import { stretchOf } from '../../checks/note-report.ts';
import type { Colours } from '../colours.ts';
import { escapeControls } from '../escape-controls.ts';
import { closingLine } from './closing-line.ts';
import { type Checkout, pathFromRoot } from './path-from-root.ts';
import type { Reporter } from './reporter.ts';
import { type Shown, shownFindings } from './shown-findings.ts';
import { partsOf, worstFirstPiece } from './worst-first.ts';

/** The path of a note from standard input that has no name. */
const STDIN = '-';

/**
 * The report that GitHub draws at the lines of a change: a workflow command for each finding. Errors go first, since
 * of each kind only the first ten of a step are shown. Paths count from the root of the checkout.
 */
export function githubReporter(
  options: Shown & { readonly checkout: Checkout | null; readonly colours: Colours },
): Reporter {
  return {
    opening: '',
    note: (path, text, note) => {
      const index = lineIndex(text);
      const file = path === STDIN ? path : pathFromRoot(path, options.checkout);
      return worstFirstPiece(shownFindings(note, options), finding => commandOf(file, index, finding));
    },
    add: piece => written(partsOf(piece).first),
    closing: summary => (summary.notes === 0 ? '' : `${closingLine(options.colours, summary)}\n`),
    keeps: {
      later: piece => written(partsOf(piece).later),
      beforeLater: () => '',
      beforeTroubles: () => '',
      trouble: sentence => written([command('error', [['title', 'leastwise']], sentence)]),
    },
  };
}

function written(lines: readonly string[]): string {
  return lines.map(line => `${line}\n`).join('');
}

function commandOf(file: string, index: LineIndex, finding: Finding): string {
  const { severity, waived, rule, slip, message } = finding;
  const { line, column, endLine, endColumn } = stretchOf(index, finding.span);
  const title = slip === null ? rule : `${rule}, the slip ${slip}`;
  const properties: (readonly [string, string | number])[] = [
    ...(file === STDIN ? [] : [['file', file] as const]),
    ['line', line],
    ['endLine', endLine],
    // GitHub takes columns only where they are those of one line.
    ...(line === endLine ? [['col', column] as const, ['endColumn', endColumn] as const] : []),
    ['title', waived === null ? title : `${title}, waived`],
  ];
  return waived === null
    ? command(severity, properties, message)
    : command('notice', properties, `${message}; waived: ${waived}`);
}

/** One command in one line, whatever its texts hold: <https://docs.github.com/actions/reference/workflow-commands-for-github-actions>. */
function command(
  name: 'error' | 'warning' | 'notice',
  properties: readonly (readonly [string, string | number])[],
  message: string,
): string {
  const listed = properties.map(([key, value]) => `${key}=${propertyText(String(value))}`);
  return `::${name} ${listed.join(',')}::${dataText(message)}`;
}

/** The signs that end a line would end the command, so they are told by their numbers; other controls are written out. */
function dataText(text: string): string {
  return text
    .split('\n')
    .map(line => line.split('\r').map(withoutControls).join('%0D'))
    .join('%0A');
}

function withoutControls(text: string): string {
  return escapeControls(text).replaceAll('%', '%25');
}

function propertyText(text: string): string {
  return dataText(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
