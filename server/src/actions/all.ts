import type { Action, ActionContext } from './action.ts';
import { answerOpenClaims } from './answer-open-claims.ts';
import { fillChoices } from './fill-choices.ts';
import { insertWorkings } from './insert-workings.ts';
import { makeFixes } from './make-fixes.ts';
import { recordWhatIsMissing } from './record-what-is-missing.ts';
import { waiveFindings } from './waive-findings.ts';

/** Every kind of action, the likelier first. */
const ACTIONS: readonly ((context: ActionContext) => readonly Action[])[] = [
  makeFixes,
  answerOpenClaims,
  recordWhatIsMissing,
  fillChoices,
  insertWorkings,
  waiveFindings,
];

/** All that can be done where the cursor stands, the likeliest first. */
export function actionsAt(context: ActionContext): readonly Action[] {
  const actions = ACTIONS.flatMap(each => each(context));
  return [
    ...actions.filter(({ kind }) => kind === 'quickfix'),
    ...actions.filter(({ kind }) => kind !== 'quickfix'),
  ];
}
