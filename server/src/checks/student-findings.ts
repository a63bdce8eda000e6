import { namesIn } from '../engine/evaluation.ts';
import type { SlipName } from '../engine/slips/slip.ts';
import type { Facts } from '../language/facts.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { Observation, Observed, Stated, Subject } from '../language/measurement.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { ComputedTerm, ObservableTerm } from '../language/term-names.ts';
import type { Finding } from './finding.ts';

/**
 * A finding as a student gets it: what to look at again, and where, without the right value and whatever gives it away.
 *
 * What concerns the form of a line only stays as it is, with its fixes.
 */
export function studentFinding(finding: Finding): Finding {
  const say = SAYINGS[finding.rule];
  return say === null ? finding : { ...finding, message: say(finding), computed: null, fixes: [] };
}

type Say = (finding: Finding) => string;

/** What is said in the place of a rule's own words; null where these tell no value. */
const SAYINGS: Readonly<Record<RuleName, Say | null>> = {
  'unreadable-line': null,
  'unknown-term': null,
  'not-plain': null,
  'ambiguous-expression': null,
  'missing-unit': null,
  'unit-mismatch': null,
  'unknown-block': null,
  'duplicate-name': null,
  'circular-reference': null,
  undetermined: null,
  'contradicting-scales': () =>
    'this does not agree with what else is said about the scales; look again at which divisions are counted on each side, and how many of them',
  'impossible-reading': () =>
    'this cannot be seen on the instrument as its scales are recorded; look again at the marks, at how many there are, and at how far apart they stand',
  'ambiguous-reading': () =>
    'more than one reading fits what was observed; record what tells them apart, such as the main mark that was just passed',
  'given-disagrees': finding =>
    `${whatFor(finding)} as given does not agree with the other records of this block, which are used; look again at both`,
  'out-of-range': () =>
    'this reading lies outside what the instrument can show; look again at the marks and at the measuring range',
  'wrong-value': finding =>
    `${opening(finding)}, which does not follow from what is recorded: look again at ${hintFor(finding)}`,
  'taken-as-given': null,
  'untraced-number': null,
  'carried-forward': finding =>
    `${opening(finding)}, which follows correctly from a wrong line above: mend that one first, then work this out again`,
  'early-rounding': finding =>
    `${opening(finding)}, which only comes out with a value that was rounded on the way: carry all its digits and round once at the end`,
  'stated-precision': finding =>
    `${opening(finding)}, which is right, but has too few places or too many: look again at how finely the instrument reads and how well the data are known`,
  'wrong-key': finding =>
    `the key does not agree with what is recorded: work ${whatFor(finding)} out again and compare it with each choice`,
  'no-right-option': finding =>
    `no choice agrees with what is recorded: work ${whatFor(finding)} out again and compare it with each choice`,
  'several-right-options': finding =>
    `more than one choice agrees with what is recorded, so nobody can tell which one is meant: work ${whatFor(finding)} out again and compare it with each`,
  'stale-working': null,
  'unused-waiver': null,
  limit: null,
};

/** `the observed reading is stated as 2.494 cm`, as the note has it. */
function opening(finding: Finding): string {
  return finding.stated === null
    ? `this is a value of ${whatFor(finding)}`
    : `${whatFor(finding)} is stated as ${finding.stated}`;
}

/** `the observed reading of row 2`, `rho`. */
function whatFor({ term, row }: Finding): string {
  if (term === null) return 'this value';
  const name = / /.test(term) || term === 'pitch' ? `the ${term}` : term;
  const where = row === null ? '' : typeof row === 'number' ? ` of row ${row}` : ` of ${row}`;
  return where !== '' && term.endsWith(where) ? name : `${name}${where}`;
}

function hintFor({ slip, term }: Finding): string {
  if (slip !== null) return SLIP_HINTS[slip as SlipName];
  return (
    TERM_HINTS.find(([words]) => words.test(term ?? ''))?.[1] ??
    'the formula, the values put in, and the unit'
  );
}

/** Where a slip is looked for, without what it changed. */
const SLIP_HINTS: Readonly<Record<SlipName, string>> = {
  'zero-correction-left-out': 'the zero check: what it showed has to come in',
  'zero-correction-sign': 'the sign of the zero correction',
  'zero-correction-twice': 'how often the zero correction comes in',
  'closed-division-as-read': 'which way the divisions are counted when the instrument is closed',
  'division-miscounted': 'the division that was read: count it again',
  'forward-rule': 'what a coinciding line stands for on this vernier, whichever way it runs',
  'division-over-n': 'how the least count follows from the two scales',
  'difference-not-least-count': 'whether a single difference of divisions is the finest step here',
  'vernier-division-for-least-count': 'the difference between a division of the vernier and the least count',
  'mark-at-coincidence': 'which mark of the main scale is read: the one just passed by the zero',
  'next-mark': 'which mark was passed last, and which one comes next',
  'half-turn-missed': 'whether the drum has turned once or more since the mark that was read',
  'circular-reading-times-pitch': 'what one division of the circular scale is worth',
  'pitch-as-one-division': 'how far the screw goes in one rotation',
  'unit-slip': 'the units: bring all of them to one before you add or divide',
  'power-of-ten': 'the place of the decimal point',
  'radius-for-diameter': 'whether the formula wants the radius or the diameter',
  'power-left-out': 'the powers in the formula',
  'errors-subtracted': 'how errors go together: they never help each other',
  'signed-deviations': 'the signs of the deviations',
  'rows-left-out': 'whether all rows are counted in, and by how many the sum is divided',
  'digits-swapped': 'the order of the digits as you copied them',
  'sign-slip': 'the sign',
  'rounded-twice': 'the rounding: once, and from the value with all its digits',
  'cut-off': 'the rounding: the first digit that is left out decides',
  'rotation-miscounted': 'the number of full rotations',
  'full-circle-missed': 'whether the zero of the circle was passed between the two readings',
};

/** Where to look when no slip is known, by what is worked out; the first that fits. */
const TERM_HINTS: readonly (readonly [RegExp, string])[] = [
  [
    /error of|uncertainty|deviation|mean absolute error/,
    'what each value is uncertain by, and how these go together',
  ],
  [/percentage difference/, 'which of the two values the difference is compared with'],
  [/^mean /, 'each row, and by how many the sum is divided'],
  [/^zero error/, 'the closed instrument: which division is in line, and on which side of zero'],
  [/^zero correction/, 'the zero error, which the correction takes back'],
  [/^corrected reading/, 'the observed reading, and the zero correction with its sign'],
  [
    /^(observed|vernier scale) reading/,
    'the mark that was read, the division, and what one division is worth',
  ],
  [/^least count/, 'what one division of each scale is worth'],
  [/^pitch/, 'how far the screw goes in one rotation'],
  [/division/, 'how many divisions of one scale cover how many of the other'],
];

/** Whether a block itself records the value of a subject: no formula, and no count that a length is worked out from. */
export function isRecorded(facts: Facts, subject: Subject): boolean {
  const { givens, own, rows } = facts.measurement;
  switch (subject.kind) {
    case 'own': {
      if (subject.block !== null) return false;
      if (subject.row !== null) return isValue(rows[subject.row - 1]?.own.get(subject.name)?.stated);
      const record = own.get(subject.name);
      return record?.kind === 'letter' || (record?.kind === 'value' && isValue(record.given.stated));
    }
    case 'term': {
      if (subject.block !== null) return false;
      const reading = readingsOf(facts, subject.row).get(subject.term as ObservableTerm);
      if (reading !== undefined) return isAsRead(reading);
      return subject.row === null && isValue(givens.get(subject.term as ComputedTerm)?.stated);
    }
    case 'division':
    case 'count':
    case 'statistic':
    case 'unknown':
      return false;
  }
}

function isAsRead(reading: Observation): boolean {
  const isPlain = (value: Observed): boolean =>
    value.kind === 'length' ? isValue(value.stated) : value.division === null && isValue(value.count);
  switch (reading.kind) {
    case 'at':
      return isPlain(reading.value);
    case 'between':
      return isPlain(reading.low) && isPlain(reading.high);
    case 'direction':
      return false;
  }
}

function isValue(stated: Stated | undefined): boolean {
  return stated?.isValue === true && namesIn(stated.expression).size === 0;
}
