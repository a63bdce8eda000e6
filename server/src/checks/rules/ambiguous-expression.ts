import type { Fix } from '../../language/problem.ts';
import type { Span } from '../../language/syntax.ts';
import { claimFinding, problemFindings } from '../finding-from.ts';
import type { Rule } from '../rule.ts';

export const ambiguousExpression: Rule = {
  name: 'ambiguous-expression',
  severity: 'error',
  summary: 'two readings are possible',
  explanation: `In print, a fraction bar shows what stands below it. On one line \`pi d^2 / 4 l\` may be the volume of a rod
or something divided by its length, and the two differ by the square of \`l\`. Nothing is guessed: both
readings are offered, and brackets or a multiplication sign settle it.

The same holds for a number right behind a number (\`3 4 mm\`), for \`3·2\`, which may be a decimal or a
product, for a function whose reach is open (\`sin 2 theta\`), and for a word behind a number that is both a
unit and a name of the block where either would fit.`,
  example: `\`\`\`measurement ferrule
d: 7.42 mm
l: 31.0 mm
volume v = pi d^2 / 4 l
#                   ^^^ error ambiguous-expression: this may be (pi d^2 / 4) l or pi d^2 / (4 l)
\`\`\`
`,
  fixedExample: `\`\`\`measurement ferrule
d: 7.42 mm
l: 31.0 mm
volume v = (pi d^2 / 4) l
\`\`\`
`,
  run(note) {
    const doubtful = note.verdicts.flatMap(verdict =>
      verdict.kind === 'lack' && verdict.lack.kind === 'two-readings'
        ? [
            claimFinding(ambiguousExpression, note, verdict, {
              message: `${verdict.lack.word} is both a unit and a name of this block, and both readings or neither fit here; write a multiplication sign before it where the name is meant`,
              fixes: signFixes(note.text, verdict.lack.span, verdict.lack.word),
            }),
          ]
        : [],
    );
    return [...problemFindings(ambiguousExpression, note), ...doubtful];
  },
};

/** Writes the sign that makes a name of the word; none where the word stands more than once. */
function signFixes(text: string, { start, end }: Span, word: string): readonly Fix[] {
  const typed = text.slice(start, end);
  const found = [...typed.matchAll(/\p{L}+/gu)].filter(match => match[0] === word);
  const at = found.length === 1 ? start + found[0]!.index : -1;
  if (at <= start || !/[\p{L}\d)]\s*$/u.test(text.slice(start, at))) return [];
  return [
    { title: `Write × ${word}`, edits: [{ span: { start: at, end: at }, newText: '× ' }], sure: false },
  ];
}
