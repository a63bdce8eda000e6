import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import { expressionText } from '../render/expression-text.ts';
import type { Working } from './working.ts';

/**
 * The workings of a block, read one after the other: a step that stands in an earlier one is not told again.
 *
 * What a working ends in always stays.
 */
export function withoutRepeats(workings: readonly Working[]): readonly Working[] {
  const told = new Set<string>();
  return workings.map(working => {
    const { steps } = working.derivation;
    const fresh = steps.filter((step, index) => {
      const text = stepText(step);
      const isNew = !told.has(text) || index === steps.length - 1;
      told.add(text);
      return isNew;
    });
    return { ...working, derivation: { ...working.derivation, steps: fresh } };
  });
}

/** What tells two steps apart; the reason is none, for it was told with the step. */
function stepText(step: Step): string {
  switch (step.kind) {
    case 'line': {
      const links = step.links.map(({ relation, value, error }) => {
        const behind = error === null ? '' : ` ± ${expressionText(error)}`;
        return `${relation} ${expressionText(value)}${behind}`;
      });
      return [expressionText(step.left), ...links].join(' ');
    }
    case 'table':
      return [step.header, ...step.rows].map(row => row.map(cellText).join(' | ')).join('\n');
    case 'remark':
      return step.text;
  }
}

function cellText(cell: Expression | string): string {
  return typeof cell === 'string' ? cell : expressionText(cell);
}
