import { readdirSync, readFileSync } from 'node:fs';
import { evaluate, fraction, unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import type { CheckedNote, Finding } from '../../server/src/checks/finding.ts';
import { lineIndex, placeAt } from '../../server/src/checks/line-index.ts';
import { withFix } from '../support/fixes.ts';

// Forty blocks typed in a hurry before the parser was looked at, with what each line means worked out by hand.

interface Meant {
  readonly line: number;
  readonly means: string;
  readonly term: string | null;
  readonly name?: string;
  readonly value: string | null;
  readonly unit: string | null;
  readonly right: boolean | null;
}

const folder = new URL('.', import.meta.url);
const notes = readdirSync(folder).filter(name => /^\d\d-.*\.md$/.test(name));

type Outcome = 'read' | 'taken as given' | 'mended by its first fix' | 'refused' | 'misread in silence';

function findingsAt(text: string, checked: CheckedNote, line: number): readonly Finding[] {
  const index = lineIndex(text);
  return checked.findings.filter(
    finding => finding.waived === null && placeAt(index, finding.span.start).line === line,
  );
}

/** What became of a line: its own findings first, then whether its value is what was meant. */
function outcomeOf(text: string, meant: Meant): Outcome {
  const checked = checkNote(text);
  const findings = findingsAt(text, checked, meant.line);
  const faults = findings.filter(({ rule }) => !JUDGING.has(rule));
  if (faults.length === 0) {
    if (findings.some(({ rule }) => rule === 'taken-as-given')) return 'taken as given';
    return isMisread(text, checked, meant) ? 'misread in silence' : 'read';
  }
  let mended = text;
  let line = findings.length;
  for (const fault of faults) {
    const fix = fault.fixes[0];
    const still = findingsAt(mended, checkNote(mended), meant.line).find(
      ({ rule, message }) => rule === fault.rule && message === fault.message,
    );
    if (still === undefined) continue;
    if (fix === undefined || still.fixes[0] === undefined) return 'refused';
    mended = withFix(mended, still.fixes[0]);
    line -= 1;
  }
  const left = findingsAt(mended, checkNote(mended), meant.line).filter(
    ({ rule }) => !JUDGING.has(rule) && rule !== 'taken-as-given',
  );
  return line >= 0 && left.length === 0 ? 'mended by its first fix' : 'refused';
}

/** The note with the first fix of every line that was not read, except one line. */
function withFirstFixes(text: string, except: string): string {
  let mended = text;
  for (let round = 0; round < 20; round++) {
    const lines = mended.split('\n');
    const index = lineIndex(mended);
    const fix = checkNote(mended).findings.find(
      ({ rule, fixes, span }) =>
        !JUDGING.has(rule) && fixes.length > 0 && lines[placeAt(index, span.start).line - 1] !== except,
    )?.fixes[0];
    if (fix === undefined) break;
    mended = withFix(mended, fix);
  }
  return mended;
}

/** Rules that judge a line that was read. */
const JUDGING = new Set([
  'wrong-value',
  'carried-forward',
  'early-rounding',
  'stated-precision',
  'wrong-key',
  'no-right-option',
  'several-right-options',
  'given-disagrees',
  'out-of-range',
  'untraced-number',
  'taken-as-given',
  'unused-waiver',
  'impossible-reading',
  'ambiguous-reading',
]);

/** A wrong claim or key without a finding, a right one with an error, or another value than was meant. */
function isMisread(text: string, checked: CheckedNote, meant: Meant): boolean {
  const typed = text.split('\n')[meant.line - 1] ?? '';
  // A claim can be judged only where the lines that it rests on are mended.
  const whole = withFirstFixes(text, typed);
  const line = whole.split('\n').indexOf(typed) + 1;
  const flagged = findingsAt(whole, checkNote(whole), line).some(
    ({ severity, rule }) => severity === 'error' || rule === 'carried-forward',
  );
  if (meant.means === 'comment') return !typed.trimStart().startsWith('#');
  if (meant.right !== null && meant.means !== 'option') return meant.right === flagged;
  if (
    !['observation', 'given'].includes(meant.means) ||
    meant.value === null ||
    !/^[-\d./]+$/.test(meant.value)
  )
    return false;
  const index = lineIndex(text);
  const stated = checked.blocks
    .flatMap(block => block.quantities)
    .filter(({ span }) => span !== null && placeAt(index, span.start).line === meant.line);
  return !stated.some(
    ({ term, name, value, unit: shown }) =>
      (term === meant.term || name === meant.term) && sameValue(value, shown, meant),
  );
}

const MATHJS_UNITS: Readonly<Record<string, string>> = { in: 'inch' };

function sameValue(value: string, shown: string | null, meant: Meant): boolean {
  const ours = evaluate(`${value}`) as number;
  const theirs = Number(fraction(meant.value!).valueOf());
  if (shown === null || meant.unit === null || shown === meant.unit)
    return Math.abs(ours - theirs) <= 1e-9 * Math.max(1, Math.abs(theirs));
  const mathjsUnit = (name: string): string => MATHJS_UNITS[name] ?? name;
  return (
    Math.abs(unit(ours, mathjsUnit(shown)).toNumber(mathjsUnit(meant.unit)) - theirs) <=
    1e-9 * Math.max(1, Math.abs(theirs))
  );
}

const outcomes = notes.flatMap(name => {
  const text = readFileSync(new URL(name, folder), 'utf8');
  const meant = JSON.parse(
    readFileSync(new URL(name.replace('.md', '.expected.json'), folder), 'utf8'),
  ) as readonly Meant[];
  const lines = text.split('\n');
  return meant.map(line => ({
    where: `${name}:${line.line}`,
    typed: lines[line.line - 1],
    means: line.means,
    outcome: outcomeOf(text, line),
  }));
});

describe('forty blocks as hurried people type them', () => {
  it('misreads nothing in silence', () => {
    expect(outcomes.filter(({ outcome }) => outcome === 'misread in silence')).toEqual([]);
  });

  it('reads, takes as given or mends at least 19 of 20 lines', () => {
    const refused = outcomes.filter(({ outcome }) => outcome === 'refused');
    const share = 1 - refused.length / outcomes.length;
    expect(share, refused.map(({ where, typed }) => `${where} ${typed}`).join('\n')).toBeGreaterThanOrEqual(
      0.95,
    );
  });

  it('has forty blocks', () => {
    expect(notes.length).toBe(40);
  });
});
