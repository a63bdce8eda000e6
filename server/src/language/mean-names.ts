import { unitWord } from '../engine/unit.ts';
import { changeAtEnd } from './changes.ts';
import { isSign, type Statement } from './parser.ts';
import { columnName } from './table-header.ts';
import { headAndRows } from './table-line.ts';

type Claimed = Extract<Statement, { readonly kind: 'claim' }>;

/**
 * Reads what is claimed of `T_mean`, `T̄` or `\bar{T}` beside repeated values T as the mean of T, with that name for it.
 *
 *     T: 2.63 s, 2.56 s, 2.42 s
 *     T_mean = 2.54 s
 *     ^^^^^^ mean of T
 *
 * It stays a quantity of one's own where the block records it, gives it an error or works it out from other quantities.
 */
export function readMeanNames(statements: readonly Statement[]): readonly Statement[] {
  if (!statements.some(isOfMean)) return statements;
  const repeated = repeatedNames(statements);
  const others = new Set(statements.flatMap(namesOf));
  return statements.map(statement => {
    if (!isOfMean(statement)) return statement;
    const name = nameAtEnd(statement)!;
    const of = meantBy(name)!;
    const isOwn = statements.some(other => speaksOtherwiseOf(name, other));
    if (isOwn || !repeated.has(of) || restsOnOthers(statement, name, of, others)) return statement;
    return { ...statement, leftSide: { kind: 'reference', text: `mean of ${of}`, symbol: name } };
  });
}

/** What a name is the mean of: T for `T_mean`, `T_avg` and `T_bar`, as `T̄` and `\bar{T}` are read; null for others. */
function meantBy(name: string): string | null {
  return /^(.+?)_(?:mean|avg|ave|average|bar)$/i.exec(name)?.[1] ?? null;
}

/** Whether a claim's name is that of a mean: alone, or behind words that say so, as in `mean period T_mean`. */
function isOfMean(statement: Statement): statement is Claimed {
  const name = statement.kind === 'claim' ? nameAtEnd(statement) : null;
  return name !== null && meantBy(name) !== null;
}

function nameAtEnd({ left, leftSide }: Claimed): string | null {
  const last = left[left.length - 1];
  if (last?.kind !== 'word' || leftSide.kind !== 'own') return null;
  return left.length === 1 || (leftSide.symbol === last.text && /^(?:mean|average)\b/.test(leftSide.words))
    ? last.text
    : null;
}

/** Lists and columns by the names that stand for them; not what one line says one value of. */
function repeatedNames(statements: readonly Statement[]): ReadonlySet<string> {
  const repeated = new Set<string>();
  const single = new Set<string>();
  for (const statement of statements) {
    if (statement.kind === 'words') continue;
    const isList = statement.kind === 'record' && statement.right.some(token => isSeparator(token.text));
    for (const name of namesOf(statement))
      (statement.kind === 'table' || isList ? repeated : single).add(name);
  }
  return new Set([...repeated].filter(name => !single.has(name)));
}

function isSeparator(text: string): boolean {
  return text === ',' || text === ';';
}

/** What a line or the head of a table gives names to. */
function namesOf(statement: Statement): readonly string[] {
  if (statement.kind === 'words') return [];
  if (statement.kind === 'table') {
    const columns = headAndRows(statement.lines)?.head.cells.map(cell => columnName(cell)) ?? [];
    return columns.flatMap(column => (column.kind === 'own' ? [column.name] : []));
  }
  const { leftSide, leftText } = statement;
  if (leftSide.kind === 'own' || leftSide.kind === 'reference')
    return leftSide.symbol === null ? [leftText] : [leftSide.symbol];
  return [leftText];
}

/** Whether a line records a name, or gives it an error: `T_mean: 2.54 s`, `T_mean = 2.54 s ± 0.08 s`. */
function speaksOtherwiseOf(name: string, statement: Statement): boolean {
  if (statement.kind === 'words' || statement.kind === 'table') return namesOf(statement).includes(name);
  if (statement.left[statement.left.length - 1]?.text !== name || changeAtEnd(statement.left) !== null)
    return false;
  return !isOfMean(statement) || statement.right.some(token => isSign(token, '±'));
}

/** Whether a claim is worked out from other quantities of the block: `T_mean = t_mean/20`. */
function restsOnOthers({ right }: Claimed, name: string, of: string, others: ReadonlySet<string>): boolean {
  return right.some(({ kind, text }, index) => {
    const isUnit = right[index - 1]?.kind === 'number' && unitWord(text) !== null;
    return kind === 'word' && !isUnit && text !== name && text !== of && others.has(text);
  });
}
