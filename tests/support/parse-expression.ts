import type { Expression } from '../../server/src/engine/expression.ts';
import { toFractionText } from '../../server/src/engine/rational.ts';
import { scalarText } from '../../server/src/engine/scalar.ts';
import { unitText } from '../../server/src/engine/unit.ts';
import { type Parsed, parseExpression } from '../../server/src/language/expression-parser.ts';
import { tokenize } from '../../server/src/language/lexer.ts';
import type { NameTable } from '../../server/src/language/parser-state.ts';

/** A table of names as they are spelt, words and single spaces; the longest one wins. */
export function wordNames(...known: readonly string[]): NameTable {
  const names = new Set(known);
  return {
    longestName(tokens, index) {
      let text = '';
      let longest = null;
      for (let to = index; to < tokens.length && to < index + 6; to += 1) {
        const token = tokens[to];
        if (token?.kind !== 'word') break;
        text += to === index ? token.text : ` ${token.text}`;
        if (names.has(text)) longest = { key: text, length: to - index + 1, text };
      }
      return longest;
    },
  };
}

export interface ParseSetting {
  readonly names: NameTable;
  readonly asNames?: ReadonlySet<string>;
  readonly mode?: 'value' | 'link';
  readonly start?: number;
}

/** Lexes and parses a link as a note would have it. */
export function parse(text: string, setting: ParseSetting): Parsed {
  const { names, asNames = new Set<string>(), mode = 'link', start = 0 } = setting;
  return parseExpression(tokenize(text, start).tokens, { names, asNames, mode });
}

/** Names of a block that has a bit of everything, among them some that units are called, too. */
export const BENCH_NAMES = wordNames(
  ...[
    'D',
    'm',
    'v',
    'h',
    'l',
    'S',
    'V',
    'n',
    'N',
    'rho',
    'theta',
    'w',
    'k',
    'mu',
    'a',
    'b',
    'c',
    'LC',
    'MSR',
    'pitch',
  ],
  ...['observed reading', 'observed reading of dish', 'mean corrected reading', 'min reading'],
);

/** The tree in brackets: what stands for what. */
export function tree(expression: Expression | null): string {
  if (expression === null) return 'nothing';
  switch (expression.kind) {
    case 'literal':
      return expression.text;
    case 'name':
      return expression.key;
    case 'pi':
      return 'π';
    case 'negate':
      return `-(${tree(expression.of)})`;
    case 'power':
      return `(${tree(expression.base)} ^ ${tree(expression.exponent)})`;
    case 'call':
      return `${expression.name}(${expression.arguments.map(tree).join('; ')})`;
    case 'measured':
      return `(${tree(expression.of)}) in ${unitText(expression.unit)}`;
    case 'add':
      return `(${tree(expression.left)} + ${tree(expression.right)})`;
    case 'subtract':
      return `(${tree(expression.left)} - ${tree(expression.right)})`;
    case 'multiply':
      return `(${tree(expression.left)} × ${tree(expression.right)})`;
    case 'divide':
      return `(${tree(expression.left)} / ${tree(expression.right)})`;
  }
}

/** What a literal is in base units, the unit it is shown in, and one in its last place in base units. */
export function literalValue(expression: Expression | null): string {
  if (expression?.kind !== 'literal') return 'no literal';
  const { quantity, place } = expression;
  const unit = quantity.unit === null ? '' : ` ${unitText(quantity.unit)}`;
  return `${scalarText(quantity.scalar)}${unit}, ${place === null ? 'no place' : toFractionText(place)}`;
}
