import type { NoteCheck } from '../checks/note-check.ts';
import { mayTell, type Settings } from '../checks/settings.ts';
import type { Derivation } from '../engine/derivation.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { deriveError } from './derive-error.ts';
import { deriveMean } from './derive-mean.ts';
import { deriveOwn } from './derive-own.ts';
import { deriveQuestion } from './derive-question.ts';
import { deriveReading } from './derive-reading.ts';
import { deriveScale } from './derive-scale.ts';
import { deriveZero } from './derive-zero.ts';
import { withoutRepeats } from './without-repeats.ts';
import { workedSubjects } from './worked-subjects.ts';

/** By the least count (`MSR + n × LC`), or by the scales themselves (`x + k·V = m·S`), which holds for every vernier. */
export type Way = NonNullable<Settings['way']>;

export interface WorkingOptions {
  /** Null: as the settings say, and where they do not, by the least count where that holds, else by the scales. */
  readonly way: Way | null;
}

/** What a derivation is made from. */
export interface Deriving {
  readonly note: NoteCheck;
  readonly facts: Facts;
  readonly way: Way | null;
}

/** How one quantity of a block follows from its records. */
export interface Working {
  readonly block: number;
  /** Null for the question of the block: its key, and why the other choices are wrong. */
  readonly subject: Subject | null;
  readonly derivation: Derivation;
}

const USUAL: WorkingOptions = { way: null };

/** How a quantity follows; null where the block records it as it is, or does not determine it, or nothing may be told. */
export function workingOf(
  note: NoteCheck,
  block: number,
  subject: Subject,
  { way }: WorkingOptions = USUAL,
): Working | null {
  if (!mayTell(note.settings)) return null;
  const deriving: Deriving = { note, facts: note.facts.block(block), way: way ?? note.settings.way };
  const derivation = derive(deriving, subject);
  return derivation && { block, subject, derivation };
}

/** The whole solution of a block in the order of teaching: the scales, zero, readings, means, what is made of them. */
export function blockWorkings(
  note: NoteCheck,
  block: number,
  options: WorkingOptions = USUAL,
): readonly Working[] {
  if (!mayTell(note.settings)) return [];
  const workings = workedSubjects(note.facts.block(block)).flatMap(
    subject => workingOf(note, block, subject, options) ?? [],
  );
  const question = deriveQuestion({
    note,
    facts: note.facts.block(block),
    way: options.way ?? note.settings.way,
  });
  return withoutRepeats(
    question === null ? workings : [...workings, { block, subject: null, derivation: question }],
  );
}

function derive(deriving: Deriving, subject: Subject): Derivation | null {
  switch (subject.kind) {
    case 'division':
      return deriveScale(deriving, subject);
    case 'own':
      return deriveOwn(deriving, subject);
    case 'statistic':
      return deriveError(deriving, subject);
    case 'count':
    case 'unknown':
      return null;
    case 'term':
      switch (subject.term) {
        case 'pitch':
        case 'least count':
          return deriveScale(deriving, subject);
        case 'zero error':
        case 'zero correction':
          return deriveZero(deriving, subject);
        case 'mean observed reading':
        case 'mean corrected reading':
        case 'mean absolute error':
        case 'standard deviation':
          return deriveMean(deriving, subject);
        default:
          return deriveReading(deriving, subject);
      }
  }
}
