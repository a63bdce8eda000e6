import type { Finding } from '../checks/finding.ts';
import type { Facts } from '../language/facts.ts';
import { withBlock } from '../language/facts.ts';
import { readLeftSide } from '../language/left-side.ts';
import { tokenize } from '../language/lexer.ts';
import { linesAbove, linesBelow } from '../language/line-edits.ts';
import type { Closed, Subject } from '../language/measurement.ts';
import type { Edit } from '../language/problem.ts';
import type { FenceLine } from '../language/syntax.ts';
import { findTerm } from '../language/terms.ts';
import type { Action, ActionContext } from './action.ts';
import { blockAt, findingsAt } from './places.ts';
import { statementLine } from './statement-line.ts';

/**
 * Puts the line that a block lacks where it belongs, as the finding names it: `pitch: …`, `closed: zeros coincide`.
 *
 * What was measured nobody but the author can know, so `…` stands in its place until it is written over, and is
 * flagged there. Scales and zero checks go below the scales, readings above the line that needs them.
 */
export function recordWhatIsMissing(context: ActionContext): readonly Action[] {
  const facts = blockAt(context);
  if (facts === null) return [];
  return findingsAt(context)
    .filter(finding => finding.rule === 'undetermined')
    .flatMap(finding =>
      linesIn(finding)
        .filter(line => hasPlace(facts, line))
        .map((line): Action => {
          const mends = line === ZEROS && zerosSettle(context, facts, finding);
          return {
            title: `Record ${line}`,
            kind: mends ? 'quickfix' : 'refactor',
            finding,
            isSure: false,
            edits: () => [recordEdit(context.text, facts, finding, line)],
          };
        }),
    );
}

const ZEROS = 'closed: zeros coincide';

/** The lines that a message offers. */
function linesIn({ message }: Finding): readonly string[] {
  return [...message.matchAll(/`([^`:]+: [^`]+)`/g)].map(match => match[1]!);
}

/** A reading of one row of a table is a cell, and no line of its own. */
function hasPlace({ measurement }: Facts, line: string): boolean {
  return measurement.rows.length === 0 || findTerm(nameOf(line))?.kind !== 'observable' || isClosed(line);
}

function nameOf(line: string): string {
  return line.slice(0, line.indexOf(':'));
}

function isClosed(line: string): boolean {
  return nameOf(line) === 'closed';
}

/** Whether nothing else is missing once the zeros are known to coincide. */
function zerosSettle({ note }: ActionContext, facts: Facts, finding: Finding): boolean {
  const at = finding.span;
  const closed: Closed = { position: { kind: 'zeros-coincide' }, span: at, valueSpan: at };
  const mended = withBlock(note.facts, facts.index, { ...facts.measurement, closed: [closed] });
  const asked = note.verdicts.find(
    ({ kind, block, span }) => kind === 'lack' && block === facts.index && span.start === at.start,
  );
  const subject: Subject | undefined = asked?.claim.subject ?? facts.measurement.question.find?.subject;
  return subject !== undefined && mended.value(subject).ok;
}

function recordEdit(text: string, facts: Facts, finding: Finding, line: string): Edit {
  const { fence } = facts.measurement;
  const needing = statementLine(fence, finding.span.start);
  const kind = findTerm(nameOf(line))?.kind;
  const isReading = kind === undefined || (kind === 'observable' && !isClosed(line));
  const indent = /^\s*/.exec(needing?.text ?? '')![0];
  if (isReading && needing !== null) return linesAbove(text, fence, needing, [`${indent}${line}`]);
  const scale = lastScaleLine(facts);
  return linesBelow(text, fence, scale, [`${/^\s*/.exec(scale?.text ?? indent)![0]}${line}`]);
}

/** The last line that says what instrument it is; null where none does. */
function lastScaleLine({ measurement }: Facts): FenceLine | null {
  const { lines } = measurement.fence;
  for (let index = lines.length - 1; 0 <= index; index--) {
    const line = lines[index]!;
    const colon = line.text.indexOf(':');
    if (colon === -1) continue;
    const left = readLeftSide(tokenize(line.text.slice(0, colon), line.start).tokens);
    if (left.kind === 'divisions') return line;
    if (left.kind === 'term' && saysInstrument(left.term.kind, left.term.name)) return line;
  }
  return null;
}

function saysInstrument(kind: string, name: string): boolean {
  return (
    kind === 'scale' ||
    kind === 'division' ||
    ['pitch', 'least count', 'instrument', 'vernier runs', 'measuring range', 'uses'].includes(name)
  );
}
