import { circularReadingTimesPitch } from './circular-reading-times-pitch.ts';
import { closedDivisionAsRead } from './closed-division-as-read.ts';
import { cutOff } from './cut-off.ts';
import { differenceNotLeastCount } from './difference-not-least-count.ts';
import { digitsSwapped } from './digits-swapped.ts';
import { divisionMiscounted } from './division-miscounted.ts';
import { divisionOverN } from './division-over-n.ts';
import { errorsSubtracted } from './errors-subtracted.ts';
import { forwardRule } from './forward-rule.ts';
import { fullCircleMissed } from './full-circle-missed.ts';
import { halfTurnMissed } from './half-turn-missed.ts';
import { markAtCoincidence } from './mark-at-coincidence.ts';
import { nextMark } from './next-mark.ts';
import { pitchAsOneDivision } from './pitch-as-one-division.ts';
import { powerLeftOut } from './power-left-out.ts';
import { powerOfTen } from './power-of-ten.ts';
import { radiusForDiameter } from './radius-for-diameter.ts';
import { rotationMiscounted } from './rotation-miscounted.ts';
import { roundedTwice } from './rounded-twice.ts';
import { rowsLeftOut } from './rows-left-out.ts';
import { signSlip } from './sign-slip.ts';
import { signedDeviations } from './signed-deviations.ts';
import type { Slip } from './slip.ts';
import { unitSlip } from './unit-slip.ts';
import { vernierDivisionForLeastCount } from './vernier-division-for-least-count.ts';
import { zeroCorrectionLeftOut } from './zero-correction-left-out.ts';
import { zeroCorrectionSign } from './zero-correction-sign.ts';
import { zeroCorrectionTwice } from './zero-correction-twice.ts';

/**
 * Every slip, the likeliest first: where several give the same number, the first is named.
 *
 * Those that rest on what was read go before the slips of the pen, which could explain any number of that shape.
 */
export const SLIPS: readonly Slip[] = [
  zeroCorrectionLeftOut,
  zeroCorrectionSign,
  zeroCorrectionTwice,
  forwardRule,
  differenceNotLeastCount,
  divisionOverN,
  vernierDivisionForLeastCount,
  halfTurnMissed,
  fullCircleMissed,
  rotationMiscounted,
  pitchAsOneDivision,
  circularReadingTimesPitch,
  nextMark,
  markAtCoincidence,
  closedDivisionAsRead,
  divisionMiscounted,
  radiusForDiameter,
  powerLeftOut,
  errorsSubtracted,
  signedDeviations,
  rowsLeftOut,
  unitSlip,
  roundedTwice,
  digitsSwapped,
  signSlip,
  powerOfTen,
  cutOff,
];
