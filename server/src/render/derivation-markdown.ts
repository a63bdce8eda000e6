import type { Derivation, Step, StepLink } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import { expressionLatex } from './expression-latex.ts';
import { plainWords, sentence } from './plain-words.ts';
import { paragraphMarkdown, titleMarkdown, wordsMarkdown } from './words-markdown.ts';

/**
 * Derivations as a worked solution in Markdown with LaTeX math, without a final line break.
 *
 * Each begins with its title in bold; then every step, its reason before it. Its parts are separated by one blank line,
 * none stands inside a formula, and no line begins with what Markdown takes for a list, a heading or a quotation, so
 * it may be put into a list or a quotation line by line.
 */
export function derivationMarkdown(derivations: readonly Derivation[]): string {
  return derivations.flatMap(partsOf).join('\n\n');
}

function partsOf({ title, steps }: Derivation): readonly string[] {
  const parts = [`**${titleMarkdown(plainWords(title))}**`];
  for (const [at, step] of steps.entries()) {
    if (step.kind === 'remark') {
      const isListed = steps[at - 1]?.kind === 'remark' || steps[at + 1]?.kind === 'remark';
      const item = isListed
        ? `- ${wordsMarkdown(sentence(step.text))}`
        : paragraphMarkdown(sentence(step.text));
      if (steps[at - 1]?.kind === 'remark') parts.push(`${parts.pop()}\n${item}`);
      else parts.push(item);
      continue;
    }
    if (step.reason !== null && step.reason.trim() !== '')
      parts.push(paragraphMarkdown(sentence(step.reason)));
    parts.push(step.kind === 'line' ? displayed(step.left, step.links) : tableMarkdown(step));
  }
  return parts;
}

/** Longer chains get a line for each link. */
const MOST_ON_ONE_LINE = 2;

function displayed(left: Expression, links: readonly StepLink[]): string {
  const leftLatex = expressionLatex(left);
  if (links.length <= MOST_ON_ONE_LINE)
    return display(guarded([leftLatex, ...links.map(linkLatex)].join(' ')));
  const lines = links.map((link, at) => `${at === 0 ? `${guarded(leftLatex)} ` : ''}&${linkLatex(link)}`);
  return display(`\\begin{aligned}\n${lines.join(' \\\\\n')}\n\\end{aligned}`);
}

function display(latex: string): string {
  return `$$\n${latex}\n$$`;
}

/** A sign in braces is the same sign, and no line of a list. */
function guarded(latex: string): string {
  return /^[-+]/.test(latex) ? `{${latex[0]}}${latex.slice(1)}` : latex;
}

function linkLatex({ relation, value, error }: StepLink): string {
  const behind = error === null ? '' : ` \\pm ${expressionLatex(error)}`;
  return `${relation === '=' ? '=' : '\\approx'} ${expressionLatex(value)}${behind}`;
}

function tableMarkdown({ header, rows }: Extract<Step, { readonly kind: 'table' }>): string {
  const width = Math.max(1, header.length, ...rows.map(row => row.length));
  const cells = (row: readonly (Expression | string)[]): string =>
    `| ${Array.from({ length: width }, (_, at) => cellMarkdown(row[at] ?? '')).join(' | ')} |`;
  const dashes = `|${' --- |'.repeat(width)}`;
  return [cells(header), dashes, ...rows.map(cells)].join('\n');
}

function cellMarkdown(cell: Expression | string): string {
  return typeof cell === 'string' ? wordsMarkdown(plainWords(cell)) : `$${expressionLatex(cell)}$`;
}
