import type { Expression } from '../engine/expression.ts';
import { replaceLiteral } from './literal-parser.ts';
import type { ParserState, Part } from './parser-state.ts';

/**
 * A link's only unit, standing last, measures all of its terms.
 *
 *     > | 2.4 + 6 × 0.01 cm
 *         ^^^^^^^^^^^^^^     all of it in cm
 */
export function withLastUnit(state: ParserState, main: Part): Expression {
  const [use, another] = state.units;
  const { expression } = main;
  const isLast = use !== undefined && another === undefined && use.to === main.to;
  if (!isLast || state.nameCount > 0 || expression.kind === 'literal') return expression;
  const bare = withoutUnit(state, expression);
  return bare === null ? expression : { kind: 'measured', of: bare, unit: use.unit };
}

/** The expression without the unit of its last term; null where that term stands inside something else. */
function withoutUnit(state: ParserState, expression: Expression): Expression | null {
  switch (expression.kind) {
    case 'literal': {
      const number = state.numbers.get(expression);
      if (number === undefined || expression.quantity.unit === null) return null;
      return replaceLiteral(state, expression, number, null, number.text);
    }
    case 'measured':
      return expression.of;
    case 'negate': {
      const of = withoutUnit(state, expression.of);
      return of === null ? null : { kind: 'negate', of };
    }
    case 'add':
    case 'subtract':
    case 'multiply':
    case 'divide': {
      const right = withoutUnit(state, expression.right);
      return right === null ? null : { ...expression, right };
    }
    case 'name':
    case 'pi':
    case 'power':
    case 'call':
      return null;
  }
}
