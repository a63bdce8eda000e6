import type { NoteCheck } from '../checks/note-check.ts';
import { type RightValue, rightValue } from '../checks/right-value.ts';
import { mayTell } from '../checks/settings.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { ownerOf } from '../language/facts-error.ts';
import type { Subject } from '../language/measurement.ts';
import { inMinutes } from '../workings/put-in.ts';
import { settingOf } from '../workings/setting.ts';
import { mannerOf } from '../workings/worked-claim.ts';

/** A value in the unit and manner of the block that it belongs to; null where nothing determines it, or it must not be told. */
export function valueText(check: NoteCheck, facts: Facts, subject: Subject): string | null {
  return rightValueOf(check, facts, subject)?.text ?? null;
}

function rightValueOf(check: NoteCheck, facts: Facts, subject: Subject): RightValue | null {
  const owner = mayTell(check.settings) ? ownerOf(facts, subject) : null;
  if (owner === null) return null;
  const { facts: home, subject: own } = owner;
  const { unit, sexagesimal } = mannerOf(settingOf({ note: check, facts: home, way: null }), own);
  // Without a scale of degrees the records tell: `theta: 24° 31′` is no 24.52°.
  const isRecorded = home.scales().dimension?.angle !== 1 && inMinutes(home, own);
  return rightValue(home, own, unit, sexagesimal || isRecorded);
}

/** The same with its error behind it, where it is a quantity of the block's own: `7.80 g/cm^3 ± 0.11 g/cm^3`. */
export function valueWithError(check: NoteCheck, facts: Facts, subject: Subject): string | null {
  const value = rightValueOf(check, facts, subject);
  if (value === null || subject.kind !== 'own' || S.realValue(value.quantity.scalar) === null)
    return value?.text ?? null;
  const error: Subject = { kind: 'statistic', statistic: 'absolute error', of: subject, from: null };
  const right = rightValue(facts, error, value.unit, /[′″]/.test(value.text));
  return right === null || S.isZero(right.quantity.scalar) ? value.text : `${value.text} ± ${right.text}`;
}
