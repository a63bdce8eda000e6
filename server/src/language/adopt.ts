import { isPlain } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import * as S from '../engine/scalar.ts';
import { type LinearForm, withEquation } from '../engine/scales.ts';
import { evaluateStated } from './evaluate-in.ts';
import { type Facts, type NoteFacts, noteFacts, withBlock } from './facts.ts';
import { DIVISION_OF } from './facts-scales.ts';
import { linearForm } from './linear-form.ts';
import { firstMeasured } from './measured-link.ts';
import type { Claim, Measurement, ScaleRecord, Stated, Subject } from './measurement.ts';
import type { ComputedTerm, ObservableTerm } from './term-names.ts';

export interface Adopted {
  readonly measurements: readonly Measurement[];
  /** Claims that nothing determines, now read as records. */
  readonly assumed: ReadonlySet<Claim>;
  readonly facts: NoteFacts;
}

const ASSUMABLE = new Set<string>(['pitch', 'least count', 'zero error', 'zero correction']);

/**
 * Reads claims that nothing determines as records, from the top down, so that the work goes on: `pitch = 0.5 mm`,
 * `10 VSD = 9 MSD`, a symbol that is used below. Never readings, means or errors.
 */
export function adoptGivens(measurements: readonly Measurement[]): Adopted {
  const assumed = new Set<Claim>();
  const current = [...measurements];
  let note = noteFacts(measurements);
  let changed = false;
  for (let index = 0; index < current.length; index++) {
    let facts = note.block(index);
    const take = (measurement: Measurement): void => {
      current[index] = measurement;
      facts = withBlock(note, index, measurement);
      changed = true;
    };
    const used = usedBefore(current, index);
    const inherited = used === null ? null : withAssumed(facts, measurements[used]!, current[used]!);
    if (inherited !== null) take(inherited);
    const claimed = withClaimedObservables(note, index, current[index]!);
    if (claimed !== null) take(claimed);
    for (const claim of current[index]!.claims) {
      if (!isCandidate(claim, current)) continue;
      const adopted = adopt(facts, claim);
      if (adopted === null) continue;
      assumed.add(claim);
      take(adopted);
    }
  }
  if (changed) note = noteFacts(current);
  return { measurements: current, assumed, facts: note };
}

/** The block above that a block uses; null where it uses none, or one below, of which nothing is assumed yet. */
function usedBefore(all: readonly Measurement[], index: number): number | null {
  const { uses } = all[index]!;
  if (uses === null) return null;
  const used = all.findIndex(({ name }) => name?.toLowerCase() === uses.name);
  return used === -1 || used >= index ? null : used;
}

/**
 * A block with what the block that it uses reads as given, but for what it says itself; null where there is nothing new.
 */
function withAssumed(facts: Facts, typed: Measurement, used: Measurement): Measurement | null {
  const { measurement } = facts;
  const says = (is: (subject: Subject) => boolean): boolean =>
    measurement.claims.some(({ subject, inTable }) => !inTable && is(subject));
  const givens = [...used.givens].filter(
    ([term, given]) =>
      given.assumed &&
      !(measurement.closed.length > 0 && term.startsWith('zero')) &&
      !says(subject => subject.kind === 'term' && subject.term === term) &&
      !facts.value({ kind: 'term', term, row: null, block: null }).ok,
  );
  const own = [...used.own].filter(
    ([name, record]) =>
      record.kind === 'value' &&
      record.given.assumed &&
      !measurement.own.has(name) &&
      !says(subject => subject.kind === 'own' && subject.name === name),
  );
  const scales = used.scales
    .slice(typed.scales.length)
    .filter(
      ({ scale }) =>
        !measurement.scales.some(record => record.scale === scale) &&
        !says(subject => subject.kind === 'division' && subject.division.startsWith(scale)),
    );
  if (givens.length === 0 && own.length === 0 && scales.length === 0) return null;
  return {
    ...measurement,
    givens: new Map([...measurement.givens, ...givens]),
    own: new Map([...measurement.own, ...own]),
    scales: [...measurement.scales, ...scales],
    subjects: new Map([...used.subjects, ...measurement.subjects]),
  };
}

function isCandidate(claim: Claim, all: readonly Measurement[]): boolean {
  if (claim.inTable || claim.links.length === 0) return false;
  const { subject } = claim;
  if (subject.kind === 'division') return subject.block === null;
  if (subject.kind === 'term') return ASSUMABLE.has(subject.term) && subject.block === null;
  return (
    subject.kind === 'own' &&
    subject.block === null &&
    valueLink(claim) !== null &&
    isUsed(subject.name, claim, all)
  );
}

/** Whether a quantity stands in another formula of its block, or as `d of BLOCK` in one of the note. */
function isUsed(name: string, claim: Claim, all: readonly Measurement[]): boolean {
  const home = all.find(({ claims }) => claims.includes(claim));
  const here = new Set([`own ${name}`]);
  const uses = (stated: Stated, known: ReadonlySet<string>): boolean =>
    [stated.expression, ...stated.readings, ...stated.mixed].some(reading =>
      [...namesIn(reading)].some(
        key =>
          known.has(key) ||
          [...known].some(own => key.includes(`(${own})`) || key.startsWith(`${own} of row`)),
      ),
    );
  return all.some(measurement => {
    const isHome =
      measurement === home ||
      (measurement.uses !== null && measurement.uses.name === home?.name?.toLowerCase());
    const known = isHome ? here : new Set(home?.name == null ? [] : [`[${home.name}] own ${name}`]);
    return (
      measurement.claims.some(
        other =>
          other !== claim &&
          (other.links.some(link => link.content.kind === 'stated' && uses(link.content.stated, known)) ||
            (isHome && speaksOf(other.subject, name))),
      ) ||
      [...measurement.own.values()].some(
        record => record.kind === 'value' && uses(record.given.stated, known),
      )
    );
  });
}

function speaksOf(subject: Subject, name: string): boolean {
  if (subject.kind !== 'statistic') return false;
  return subject.of.kind === 'own' ? subject.of.name === name : speaksOf(subject.of, name);
}

/** The value that a claim's chain ends in. */
function valueLink(claim: Claim): Stated | null {
  const first = claim.links[0];
  return claim.links.length === 1 && first?.content.kind === 'stated' && first.content.stated.isValue
    ? first.content.stated
    : null;
}

function adopt(facts: Facts, claim: Claim): Measurement | null {
  const { measurement } = facts;
  const { subject } = claim;
  if (subject.kind === 'division') return adoptDivision(facts, claim);
  // How the closed instrument stands settles the zero error, even where the scales are not known yet.
  if (measurement.closed.length > 0 && subject.kind === 'term' && subject.term.startsWith('zero'))
    return null;
  const answer = facts.value(subject);
  if (answer.ok || answer.lack.kind !== 'missing') return null;
  const stated = subject.kind === 'own' ? valueLink(claim) : firstMeasured(facts, claim);
  if (stated === null) return null;
  const given = { stated, span: claim.span, assumed: true };
  if (subject.kind === 'own') {
    return { ...measurement, own: new Map([...measurement.own, [subject.name, { kind: 'value', given }]]) };
  }
  if (subject.kind !== 'term') return null;
  return { ...measurement, givens: new Map([...measurement.givens, [subject.term as ComputedTerm, given]]) };
}

/** `10 VSD = 9 MSD` joins the scales where it says something new and nothing that excludes what is recorded. */
function adoptDivision(facts: Facts, claim: Claim): Measurement | null {
  const { measurement } = facts;
  if (claim.subject.kind !== 'division') return null;
  const { division } = claim.subject;
  const isUnread = [...measurement.unread].some(name => division.startsWith(name));
  const first = claim.links.find(link => link.content.kind === 'stated');
  if (isUnread || first?.content.kind !== 'stated') return null;
  const equation = divisionEquation(facts, claim, first.content.stated);
  if (equation === null) return null;
  const { scales } = facts.scales();
  const extended = withEquation(scales, { ...equation, source: facts.scales().spans.length });
  if (extended.troubles.length > scales.troubles.length || extended.rows.length === scales.rows.length)
    return null;
  const record: ScaleRecord = {
    scale: claim.subject.division === 'vernier scale division' ? 'vernier scale' : claim.subject.division,
    sides: [leftSide(claim), first.content.stated],
    span: claim.span,
  };
  return {
    ...measurement,
    scales: [...measurement.scales, record],
    subjects: new Map([...measurement.subjects, ...subjectEntry(claim)]),
  };
}

function subjectEntry(claim: Claim): readonly (readonly [string, Subject])[] {
  return claim.subject.kind === 'division' ? [[`1 ${claim.subject.division}`, claim.subject]] : [];
}

/** `10 VSD` as a side of an equation. */
function leftSide(claim: Claim): Stated {
  const name = {
    kind: 'name',
    key: claim.subject.kind === 'division' ? `1 ${claim.subject.division}` : '',
    text: claim.subjectText,
  } as const;
  return {
    expression: claim.times === null ? name : { kind: 'multiply', left: claim.times, right: name },
    error: null,
    isValue: false,
    hasUnit: false,
    span: claim.subjectSpan,
    text: claim.subjectText,
    readings: [],
    mixed: [],
    spans: new Map(),
  };
}

/** A claim about the scales as an equation between its left side and one of its links; null where it is none. */
export function divisionEquation(
  facts: Facts,
  claim: Claim,
  stated: Stated,
): { readonly left: LinearForm; readonly right: LinearForm } | null {
  if (claim.subject.kind !== 'division') return null;
  const times = claim.times === null ? S.UNITY : timesOf(facts, claim);
  const right = linearForm(stated.expression, facts);
  if (times === null || !right.ok) return null;
  return {
    left: {
      divisions: new Map([[DIVISION_OF[claim.subject.division], times]]),
      constant: S.NOUGHT,
      dimension: null,
    },
    right: right.form,
  };
}

function timesOf(facts: Facts, claim: Claim): S.Scalar | null {
  const answer = evaluateStated(facts, { ...leftSide(claim), expression: claim.times! });
  return answer.ok && isPlain(answer.quantity.dimension) ? answer.quantity.scalar : null;
}

/** Observables typed with an equals sign become claims where a given reading determines them; null where none does. */
function withClaimedObservables(
  note: NoteFacts,
  index: number,
  measurement: Measurement,
): Measurement | null {
  const { givens, typedAsClaims } = measurement;
  const knows = givens.has('observed reading') || givens.has('corrected reading');
  if (!knows || typedAsClaims.length === 0) return null;
  const typed = new Set(
    typedAsClaims.flatMap(claim =>
      claim.subject.kind === 'term' ? [claim.subject.term as ObservableTerm] : [],
    ),
  );
  const readings = new Map([...measurement.readings].filter(([term]) => !typed.has(term)));
  const without = { ...measurement, readings };
  const facts = withBlock(note, index, without);
  if (!typedAsClaims.every(claim => facts.value(claim.subject).ok)) return null;
  const claims = [...measurement.claims, ...typedAsClaims].sort((a, b) => a.span.start - b.span.start);
  return { ...without, claims };
}
