import type { Finding } from '../../checks/finding.ts';
import { type LineIndex, lineBounds, lineIndex, placeAt } from '../../checks/line-index.ts';
import type { Span } from '../../language/syntax.ts';
import { codeFrame } from '../code-frame.ts';
import type { Colours } from '../colours.ts';
import { type DisplayWidth, displayWidthFor } from '../display-width.ts';
import { escapeControls } from '../escape-controls.ts';
import { wrap } from '../wrap.ts';
import { closingLine } from './closing-line.ts';
import type { Reporter } from './reporter.ts';
import { type Shown, shownFindings } from './shown-findings.ts';

/** What a report is written on: the colours, the columns of the terminal, and the way to count them. */
interface Paper {
  readonly colours: Colours;
  readonly width: number;
  readonly displayWidth: DisplayWidth;
}

/** One entry of the margin: a word before the rule, a few lines behind it. */
interface Entry {
  readonly label: string;
  readonly lines: readonly string[];
}

const MARGIN = 9;
const RULE = '│';
/** The path of a note from standard input that has no name. */
const STDIN = '-';
const NARROWEST = 40;
const WIDEST = 100;
/** How much of another line is quoted beside its number. */
const QUOTED = 160;

/**
 * The report for people: every finding is a proofreader's note. Above, where it is; then the line with
 * carets below the faulty part; then, word for word in the margin, what is stated, what is right and why.
 */
export function prettyReporter(
  options: Shown & { readonly colours: Colours; readonly width: number },
): Reporter {
  const { colours } = options;
  const width = Math.min(WIDEST, Math.max(NARROWEST, options.width));
  return {
    opening: '',
    note: async (path, text, note) => {
      const shown = shownFindings(note, options);
      if (shown.length === 0) return '';
      const index = lineIndex(text);
      const paper: Paper = { colours, width, displayWidth: await displayWidthFor(text) };
      return shown.map(finding => marginNote(paper, path, index, finding)).join('');
    },
    add: String,
    closing: summary => (summary.notes === 0 ? '' : `${closingLine(colours, summary)}\n`),
  };
}

function marginNote(paper: Paper, path: string, index: LineIndex, finding: Finding): string {
  const { colours, displayWidth } = paper;
  const room = paper.width - MARGIN - 3;
  const frame = codeFrame(index, finding.span, room, displayWidth);
  const weight =
    finding.waived !== null ? colours.dim : finding.severity === 'error' ? colours.red : colours.yellow;
  const runsOn = frame.runsOnTo === null ? [] : [colours.dim(`and on to line ${frame.runsOnTo}`)];
  const entries: Entry[] = [
    {
      label: weight(labelled(finding.waived === null ? finding.severity : 'waived')),
      lines: [frame.line, weight(frame.carets), ...runsOn],
    },
  ];
  const add = (label: string, lines: readonly string[], paint: (text: string) => string = String) => {
    entries.push({ label: labelled(label), lines: lines.map(paint) });
  };
  const prose = (text: string) => wrap(escapeControls(text), room, displayWidth);
  if (finding.stated !== null) add('stated', prose(finding.stated));
  if (finding.computed !== null) add('right', prose(finding.computed), colours.green);
  add('why', prose(finding.message));
  if (finding.waived !== null) add('because', prose(finding.waived));
  if (finding.cause !== null) add('from', prose(quotedLine(index, finding.cause)));
  for (const { span, message } of finding.related) {
    if (span.start === finding.cause?.start) continue;
    add('see', prose(`${quotedLine(index, span)} (${message})`));
  }
  for (const fix of finding.fixes) add('mend', prose(fix.title));
  add(
    'rule',
    prose(finding.slip === null ? finding.rule : `${finding.rule}, the slip ${finding.slip}`),
    colours.dim,
  );
  return `${heading(colours, path, index, finding)}\n${entries.map(entry => written(colours, entry)).join('')}\n`;
}

/** Where a finding is: note, line, and whose value it is about. */
function heading(colours: Colours, path: string, index: LineIndex, finding: Finding): string {
  const about = [
    finding.block === null ? null : `block ${finding.block}`,
    finding.row === null ? null : `row ${finding.row}`,
  ].filter(part => part !== null);
  const note = path === STDIN ? 'standard input' : escapeControls(path);
  const where = `${colours.bold(note)}, line ${placeAt(index, finding.span.start).line}`;
  return about.length === 0 ? where : `${where} ${colours.dim(escapeControls(`(${about.join(', ')})`))}`;
}

function labelled(label: string): string {
  return label.padStart(MARGIN);
}

function written(colours: Colours, entry: Entry): string {
  const rule = colours.dim(RULE);
  return entry.lines
    .map((line, at) => `${at === 0 ? entry.label : ' '.repeat(MARGIN)} ${rule} ${line}`.trimEnd())
    .map(line => `${line}\n`)
    .join('');
}

function quotedLine(index: LineIndex, span: Span): string {
  const { line } = placeAt(index, span.start);
  const bounds = lineBounds(index, line);
  const text = index.text
    .slice(bounds.start, Math.min(bounds.end, bounds.start + QUOTED))
    .trim()
    .replace(/\s+/g, ' ');
  return `line ${line}: ${text}${bounds.end > bounds.start + QUOTED ? '…' : ''}`;
}
