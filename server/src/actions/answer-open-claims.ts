import { valueTimes } from '../checks/truth.ts';
import type { Edit } from '../language/problem.ts';
import { openValue } from '../workings/open-value.ts';
import type { Action, ActionContext } from './action.ts';
import { blockAt, meets } from './places.ts';

/** Writes the right value where a line or a cell ends in `= ?`: here, or everywhere in the block. */
export function answerOpenClaims(context: ActionContext): readonly Action[] {
  const facts = blockAt(context);
  if (facts === null) return [];
  const open = facts.measurement.claims.flatMap(claim =>
    claim.mended || !valueTimes(facts, claim).ok
      ? []
      : claim.links.filter(link => link.content.kind === 'asked').map(link => ({ claim, link })),
  );
  const here = open.filter(({ claim }) => meets(claim.span, context.span));
  const actions = here.flatMap(({ claim, link }): readonly Action[] => {
    const text = openValue(facts, claim, link);
    return text === null
      ? []
      : [
          {
            title: `Write ${text} for the question mark`,
            kind: 'quickfix',
            finding: null,
            isSure: true,
            edits: () => [{ span: link.span, newText: text }],
          },
        ];
  });
  if (open.length < 2) return actions;
  return [
    ...actions,
    {
      title: 'Answer every question mark of this block',
      kind: 'refactor.rewrite',
      finding: null,
      isSure: true,
      edits: () =>
        open.flatMap(({ claim, link }): readonly Edit[] => {
          const text = openValue(facts, claim, link);
          return text === null ? [] : [{ span: link.span, newText: text }];
        }),
    },
  ];
}
