import type { Action } from '../../server/src/actions/action.ts';
import { actionsAt } from '../../server/src/actions/all.ts';
import { checkedNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';

/** What is on offer in a note where `words` stand, or between two offsets. */
export function actionsOf(
  text: string,
  at: string | { readonly start: number; readonly end: number },
): readonly Action[] {
  return offersOf(text)(typeof at === 'string' ? placeOf(text, at) : at);
}

/** The same for many places of one note. */
export function offersOf(
  text: string,
): (span: { readonly start: number; readonly end: number }) => readonly Action[] {
  const note = examineNote(text);
  if (note === null) return () => [];
  const checked = checkedNote(note);
  return span => actionsAt({ text, note, checked, span });
}

function placeOf(text: string, words: string): { start: number; end: number } {
  const start = text.indexOf(words);
  if (start === -1) throw new Error(`the note does not say ${words}`);
  return { start, end: start };
}

/** The action of a title; an error names those that there are. */
export function actionOf(text: string, at: string, title: string): Action {
  const actions = actionsOf(text, at);
  const found = actions.find(action => action.title === title);
  if (found === undefined) throw new Error(`no ${title} among ${actions.map(each => each.title).join('; ')}`);
  return found;
}
