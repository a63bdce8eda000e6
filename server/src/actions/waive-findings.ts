import { isHere } from '../checks/record-lacks.ts';
import { linesAbove } from '../language/line-edits.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Action, ActionContext } from './action.ts';
import { blockAt, findingsAt } from './places.ts';
import { statementLine } from './statement-line.ts';

/** What no reason makes right: a line that nobody can read, a bound that is passed, a waiver of nothing. */
const NEVER: ReadonlySet<RuleName> = new Set(['unreadable-line', 'limit', 'unused-waiver']);

/**
 * Turns a finding off in its block, by a line above it that names the rule.
 *
 * The reason is the author's to give: until it stands behind the comma the line says that it is wanted, and the finding
 * stays.
 */
export function waiveFindings(context: ActionContext): readonly Action[] {
  const facts = blockAt(context);
  if (facts === null) return [];
  const { measurement } = facts;
  const named = new Set<RuleName>(measurement.waivers.map(({ rule }) => rule));
  return findingsAt(context).flatMap((finding): readonly Action[] => {
    const { rule, span } = finding;
    const line = statementLine(measurement.fence, span.start);
    if (NEVER.has(rule) || named.has(rule) || line === null || !isHere(measurement, span)) return [];
    named.add(rule);
    return [
      {
        title: `Waive ${rule} in this block, for a reason that you give`,
        kind: 'refactor',
        finding,
        isSure: false,
        edits: () => [linesAbove(context.text, measurement.fence, line, [`waive: ${rule}, `])],
      },
    ];
  });
}
