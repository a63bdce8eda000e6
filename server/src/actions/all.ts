import { mayTell } from '../checks/settings.ts';
import type { Action, ActionContext } from './action.ts';
import { answerOpenClaims } from './answer-open-claims.ts';
import { fillChoices } from './fill-choices.ts';
import { insertFigure } from './insert-figure.ts';
import { insertWorkings } from './insert-workings.ts';
import { makeBlock } from './make-block.ts';
import { makeFixes } from './make-fixes.ts';
import { recordWhatIsMissing } from './record-what-is-missing.ts';
import { tidyBlock } from './tidy-block.ts';
import { waiveFindings } from './waive-findings.ts';

/** Every kind of action, the likelier first. */
const ACTIONS: readonly ((context: ActionContext) => readonly Action[])[] = [
  makeFixes,
  answerOpenClaims,
  recordWhatIsMissing,
  fillChoices,
  insertWorkings,
  insertFigure,
  tidyBlock,
  makeBlock,
  waiveFindings,
];

/** Those that write no value which the writer has not worked out. */
const TELLING_NOTHING: typeof ACTIONS = [
  makeFixes,
  recordWhatIsMissing,
  insertFigure,
  tidyBlock,
  makeBlock,
  waiveFindings,
];

/** All that can be done where the cursor stands, the likeliest first. */
export function actionsAt(context: ActionContext): readonly Action[] {
  const kinds = mayTell(context.note.settings) ? ACTIONS : TELLING_NOTHING;
  const actions = kinds.flatMap(each => each(context));
  return [
    ...actions.filter(({ kind }) => kind === 'quickfix'),
    ...actions.filter(({ kind }) => kind !== 'quickfix'),
  ];
}
