import type { Action, ActionContext } from './action.ts';

/** All that can be done where the cursor stands, the likeliest first. */
export function actionsAt(_context: ActionContext): readonly Action[] {
  return [];
}
