import { expect } from 'vitest';
import type { CheckedNote, Finding } from '../../server/src/checks/finding.ts';
import { type LineIndex, lineBounds, lineIndex, placeAt } from '../../server/src/checks/line-index.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';

/**
 * Checks a note that marks its own findings.
 *
 *     observed reading = 2.494 cm
 *     #                  ^^^^^^^^ error wrong-value [digits-swapped]: 2.484 cm
 *
 * The carets stand below the finding's place; the slip in brackets and the text after the colon are
 * optional, and the message must contain the text. One caret stands for any place that it lies in;
 * carets right behind `#` or `#<` may leave out the columns that those cover. Several markers may
 * follow a line. A table's row is marked at its end (`| … | # error wrong-value; warning stated-precision`),
 * a claim in the prose by a `<!-- ^^^ error wrong-value -->` below it. A waived finding may be marked
 * `waived` in place of its severity. An unmarked finding fails, and so does a marker without a finding.
 */
export function expectMarkedNote(text: string, checkNote: (text: string) => CheckedNote): void {
  const index = lineIndex(text);
  const checked = checkNote(text);
  const { markers, unreadable } = readMarkers(index, checked);
  const open = new Set(checked.findings);
  const missing: Marker[] = [];
  for (const marker of markers) {
    const found = [...open].find(finding => matches(index, marker, finding));
    if (found === undefined) missing.push(marker);
    else open.delete(found);
  }
  const faults = [
    ...unreadable,
    ...missing.map(marker => `marked in line ${marker.at}, but not found: ${marker.typed}`),
    ...[...open].filter(finding => finding.waived === null).map(finding => unmarked(index, finding)),
  ];
  expect(faults, faults.join('\n')).toEqual([]);
}

interface Marker {
  /** The marker's own line. */
  readonly at: number;
  readonly typed: string;
  /** The line that it speaks about. */
  readonly line: number;
  /** Columns of the carets from 0, the end left out; null where the whole line is meant. */
  readonly carets: { readonly start: number; readonly end: number; readonly mayBeginAt: number } | null;
  readonly weight: string;
  readonly rule: string;
  readonly slip: string | null;
  readonly text: string;
}

const IN_BLOCK = /^(?<before>[\s>]*)#(?<gap>\s*|<)(?<carets>\^+)(?<what>.*)$/;
const IN_PROSE = /^(?<before>[\s>]*)<!--(?<gap>\s*)(?<carets>\^+)(?<what>.*?)\s*-->\s*$/;
const AT_ROW_END = /\S.*\s#\s*(?<what>(?:error|warning|waived)\s+[a-z-]+.*)$/;
const WHAT =
  /^\s*(?<weight>error|warning|waived)\s+(?<rule>[a-z-]+)(?:\s+\[(?<slip>[a-z-]+)\])?(?:\s*:\s*(?<text>.*))?$/;

function readMarkers(
  index: LineIndex,
  checked: CheckedNote,
): { readonly markers: readonly Marker[]; readonly unreadable: readonly string[] } {
  const markers: Marker[] = [];
  const unreadable: string[] = [];
  let statement = 0;
  const add = (at: number, line: number, carets: Marker['carets'], typed: string) => {
    const what = WHAT.exec(typed)?.groups;
    if (what === undefined) unreadable.push(`the marker in line ${at} cannot be read: ${typed.trim()}`);
    else if (!(RULE_NAMES as readonly string[]).includes(what.rule ?? '')) {
      unreadable.push(`the marker in line ${at} names no rule: ${what.rule}`);
    } else {
      const { weight = '', rule = '', slip = null } = what;
      const said = (what.text ?? '').replace(/…$/, '').trim();
      markers.push({ at, line, carets, typed: typed.trim(), weight, rule, slip, text: said });
    }
  };
  for (let at = 1; at <= index.starts.length; at++) {
    const bounds = lineBounds(index, at);
    const line = index.text.slice(bounds.start, bounds.end);
    const inBlock = checked.blocks.some(({ span }) => span.start <= bounds.start && bounds.start < span.end);
    const below = (inBlock ? IN_BLOCK : IN_PROSE).exec(line)?.groups;
    if (below !== undefined) {
      const { before = '', gap = '', carets = '', what = '' } = below;
      const start = before.length + (inBlock ? 1 : 4) + gap.length;
      const mayBeginAt = gap.trim() === gap ? before.length : start;
      add(at, statement, { start, end: start + carets.length, mayBeginAt }, what);
      continue;
    }
    statement = at;
    const rowEnd = inBlock ? AT_ROW_END.exec(line)?.groups?.what : undefined;
    for (const what of rowEnd?.split(/\s*;\s*(?=(?:error|warning|waived)\s)/) ?? []) add(at, at, null, what);
  }
  return { markers, unreadable };
}

function matches(index: LineIndex, marker: Marker, finding: Finding): boolean {
  return (
    finding.rule === marker.rule &&
    weightOf(finding) === marker.weight &&
    (marker.slip === null || finding.slip === marker.slip) &&
    finding.message.includes(marker.text) &&
    placeAt(index, finding.span.start).line === marker.line &&
    (marker.carets === null || standsAt(columns(index, finding), marker.carets))
  );
}

function standsAt(place: Columns, carets: NonNullable<Marker['carets']>): boolean {
  if (carets.end - carets.start === 1) {
    return place.start <= carets.start && carets.end <= Math.max(place.end, place.start + 1);
  }
  return carets.mayBeginAt <= place.start && place.start <= carets.start && place.end === carets.end;
}

interface Columns {
  readonly start: number;
  readonly end: number;
}

/** The columns of a finding's place from 0; one that runs on ends with its first line. */
function columns(index: LineIndex, finding: Finding): Columns {
  const start = placeAt(index, finding.span.start);
  const bounds = lineBounds(index, start.line);
  return {
    start: start.column - 1,
    end: start.column - 1 + Math.min(finding.span.end, bounds.end) - finding.span.start,
  };
}

function weightOf(finding: Finding): string {
  return finding.waived === null ? finding.severity : 'waived';
}

/** A finding that nobody marked, with the marker that would do. */
function unmarked(index: LineIndex, finding: Finding): string {
  const { line } = placeAt(index, finding.span.start);
  const bounds = lineBounds(index, line);
  const { start, end } = columns(index, finding);
  const indent = start === 0 ? '#' : `#${' '.repeat(start - 1)}`;
  const carets = '^'.repeat(Math.max(1, end - start - (start === 0 ? 1 : 0)));
  const slip = finding.slip === null ? '' : ` [${finding.slip}]`;
  return [
    `found in line ${line}, but not marked:`,
    index.text.slice(bounds.start, bounds.end),
    `${indent}${carets} ${weightOf(finding)} ${finding.rule}${slip}: ${finding.message}`,
  ].join('\n');
}
