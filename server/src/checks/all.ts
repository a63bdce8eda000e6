import type { Rule } from './rule.ts';
import { ambiguousExpression } from './rules/ambiguous-expression.ts';
import { ambiguousReading } from './rules/ambiguous-reading.ts';
import { carriedForward } from './rules/carried-forward.ts';
import { circularReference } from './rules/circular-reference.ts';
import { contradictingScales } from './rules/contradicting-scales.ts';
import { duplicateName } from './rules/duplicate-name.ts';
import { earlyRounding } from './rules/early-rounding.ts';
import { givenDisagrees } from './rules/given-disagrees.ts';
import { impossibleReading } from './rules/impossible-reading.ts';
import { limit } from './rules/limit.ts';
import { missingUnit } from './rules/missing-unit.ts';
import { noRightOption } from './rules/no-right-option.ts';
import { notPlain } from './rules/not-plain.ts';
import { outOfRange } from './rules/out-of-range.ts';
import { severalRightOptions } from './rules/several-right-options.ts';
import { staleWorking } from './rules/stale-working.ts';
import { statedPrecision } from './rules/stated-precision.ts';
import { takenAsGiven } from './rules/taken-as-given.ts';
import { undetermined } from './rules/undetermined.ts';
import { unitMismatch } from './rules/unit-mismatch.ts';
import { unknownBlock } from './rules/unknown-block.ts';
import { unknownTerm } from './rules/unknown-term.ts';
import { unreadableLine } from './rules/unreadable-line.ts';
import { untracedNumber } from './rules/untraced-number.ts';
import { unusedWaiver } from './rules/unused-waiver.ts';
import { wrongKey } from './rules/wrong-key.ts';
import { wrongValue } from './rules/wrong-value.ts';

/** Every rule, in the order of the reference. */
export const RULES: readonly Rule[] = [
  unreadableLine,
  unknownTerm,
  notPlain,
  ambiguousExpression,
  missingUnit,
  unitMismatch,
  unknownBlock,
  duplicateName,
  circularReference,
  undetermined,
  contradictingScales,
  impossibleReading,
  ambiguousReading,
  givenDisagrees,
  outOfRange,
  wrongValue,
  takenAsGiven,
  untracedNumber,
  carriedForward,
  earlyRounding,
  statedPrecision,
  wrongKey,
  noRightOption,
  severalRightOptions,
  staleWorking,
  unusedWaiver,
  limit,
];
