import type { Halves } from '../engine/rounds-to.ts';
import type { ErrorRule, Measurement } from '../language/measurement.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Severity } from './finding.ts';

/** How a note is to be looked at: what the editor's settings and a configuration file say, the same for both. */
export interface Settings {
  /** How grave the findings of a rule are, or that they are not reported; a rule that is not named stays as it is. */
  readonly rules: Readonly<Partial<Record<RuleName, Severity | 'off'>>>;
  /** The error rule of every block that records none. */
  readonly errorRule: ErrorRule;
  /** How a vernier is read in workings; null: by the least count where that holds, else by the scales. */
  readonly way: 'least-count' | 'scales' | null;
  /** Which way a half may go where a value is rounded. */
  readonly rounding: Halves;
  /** Notes that nobody opened are left out of a check where one of these patterns matches their path. */
  readonly ignore: readonly string[];
  /** Whether a student works here: findings say what to look at again, and nothing tells a value. */
  readonly student: boolean;
}

/** What holds where nobody says otherwise. */
export const DEFAULT_SETTINGS: Settings = {
  rules: {},
  errorRule: 'least count',
  way: null,
  rounding: 'either',
  ignore: [],
  student: false,
};

/** Whether values that the writer has not worked out may be told, anywhere: hints, workings, figures, choices. */
export function mayTell({ student }: Settings): boolean {
  return !student;
}

/** The blocks of a note, each with the conventions that it does not settle itself. */
export function withConventions(
  measurements: readonly Measurement[],
  { errorRule, rounding }: Settings,
): readonly Measurement[] {
  if (errorRule === DEFAULT_SETTINGS.errorRule && rounding === DEFAULT_SETTINGS.rounding) return measurements;
  return measurements.map(measurement => ({
    ...measurement,
    errorRule: measurement.errorRule ?? { rule: errorRule, span: null },
    halves: rounding,
  }));
}
