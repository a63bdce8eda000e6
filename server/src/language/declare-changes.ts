import { changeOf } from './changes.ts';
import { functionNamed } from './function-words.ts';
import type { Subject } from './measurement.ts';
import { type Block, isSign, type Statement } from './parser.ts';
import type { Token } from './syntax.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/** `Δm` at the beginning of a line, with the words before it and what stands behind the sign. */
export interface ChangeLine {
  readonly name: string;
  readonly words: string;
  readonly right: readonly Token[];
}

/** What a block gives names to, when all but the changes is known. */
interface Declared {
  readonly own: Map<string, string>;
  readonly symbols: ReadonlyMap<string, Subject>;
  /** Names of what is stated with an error. */
  readonly withError: ReadonlySet<string>;
}

/**
 * Beside a quantity m, Δm is its error; what is worked out beside one without error is how much it changes. What is worked
 * out by the errors of the data behind m is its error all the same: `Δρ = ρ (Δm/m + ΔV/V)`.
 */
export function declareChanges(block: Block, lines: readonly ChangeLine[], declared: Declared): void {
  const { own, symbols, withError } = declared;
  let sources: Sources | null = null;
  for (const line of lines) {
    const { name, words, right } = line;
    const of = changeOf(name)!.of;
    const mayChange = words !== '' || (isFormula(right) && !withError.has(of));
    if (!mayChange && (own.has(of) || symbols.has(of))) continue;
    sources ??= sourcesOf(block, lines, declared);
    if (words === '' && sources.workedOut.has(of) && isOfErrors(firstLink(right), sources)) {
      sources.errors.add(name);
      continue;
    }
    own.set(name, name);
    if (words !== '' && !own.has(words)) own.set(words, name);
  }
}

/** Whether what stands behind the sign is worked out first: `V2 - V = 5 cm^3`. */
function isFormula(right: readonly Token[]): boolean {
  const first = firstLink(right);
  return first[0]?.kind === 'word' || first.some((token, at) => token.text === '+' || isMinus(first, at));
}

/** What the errors of a block come from. */
interface Sources {
  /** What is recorded with an error, its value and the error as typed. */
  readonly data: readonly { readonly name: string; readonly value: string; readonly error: string }[];
  /** Own quantities that are worked out from these. */
  readonly workedOut: ReadonlySet<string>;
  /** Errors by their names: `Delta m`. */
  readonly errors: Set<string>;
}

function sourcesOf(block: Block, lines: readonly ChangeLine[], { own, withError }: Declared): Sources {
  const statements = block.statements.filter(
    (statement): statement is Signed => statement.kind === 'record' || statement.kind === 'claim',
  );
  const data = statements.flatMap(datumOf);
  const errors = new Set([...withError, ...data.map(({ name }) => name)].map(name => `Delta ${name}`));
  for (const { name, words, right } of lines)
    if (words === '' && !isFormula(right) && own.has(changeOf(name)!.of)) errors.add(name);
  const known = new Set([...errors].map(name => changeOf(name)?.of ?? ''));
  const workedOut = new Set<string>();
  for (const statement of statements) {
    const name = ownName(statement);
    if (name === null || statement.kind !== 'claim') continue;
    const isFromData = firstLink(statement.right).some(
      ({ kind, text }) =>
        (kind === 'word' && (known.has(text) || workedOut.has(text))) ||
        (kind === 'number' && data.some(({ value }) => value === plainNumber(text))),
    );
    if (isFromData && firstLink(statement.right).length > 2) workedOut.add(name);
  }
  for (const statement of statements)
    if (statement.kind === 'record') workedOut.delete(ownName(statement) ?? '');
  return { data, workedOut, errors };
}

function ownName({ leftSide }: Signed): string | null {
  return leftSide.kind === 'own' ? (leftSide.symbol ?? leftSide.words) : null;
}

/** `m: 25.0 g ± 0.1 g`. */
function datumOf(statement: Signed): Sources['data'] {
  const { kind, right, left } = statement;
  const at = right.findIndex(token => isSign(token, '±'));
  const value = right.find(token => token.kind === 'number');
  const error = right[at + 1];
  if (kind !== 'record' || at < 1 || value === undefined || error?.kind !== 'number') return [];
  const name = ownName(statement) ?? left.at(-1)?.text ?? '';
  return [{ name, value: plainNumber(value.text), error: plainNumber(error.text) }];
}

/**
 * Whether a formula is one of an error: it names the error of what has one, divides an error by its value (`0.1 g/25.0 g`),
 * or has the errors of two quantities in it. A difference is none, and no root of squares is an absolute error.
 */
function isOfErrors(formula: readonly Token[], { data, errors }: Sources): boolean {
  if (formula.some((token, at) => isMinus(formula, at) || isRoot(token))) return false;
  const changes = formula.flatMap((token, at) => {
    const change = token.kind === 'word' ? changeOf(`${token.text} ${formula[at + 1]?.text ?? ''}`) : null;
    return change === null ? [] : [change.name];
  });
  if (changes.length > 0) return changes.every(name => errors.has(name));
  const numbers = formula.filter(({ kind }) => kind === 'number').map(({ text }) => plainNumber(text));
  const ratios = data.filter(({ value, error }) =>
    formula.some(
      (token, at) =>
        token.kind === 'number' && plainNumber(token.text) === error && divisorAt(formula, at) === value,
    ),
  );
  return ratios.length > 0 || data.filter(({ error }) => numbers.includes(error)).length > 1;
}

/** The number by which the one at a place is divided, behind its unit; null for none. */
function divisorAt(formula: readonly Token[], at: number): string | null {
  const stroke = formula.findIndex(
    (token, index) => index > at && token.kind === 'operator' && token.text !== '^',
  );
  const divisor = formula[stroke + 1];
  return formula[stroke]?.text === '/' && divisor?.kind === 'number' ? plainNumber(divisor.text) : null;
}

function isRoot({ kind, text }: Token): boolean {
  return text === '√' || (kind === 'word' && functionNamed(text) === 'sqrt');
}

/** A minus between two parts; the one of an exponent, `cm^-3`, is none. */
function isMinus(tokens: readonly Token[], at: number): boolean {
  return tokens[at]?.text === '-' && tokens[at - 1]?.text !== '^';
}

function firstLink(right: readonly Token[]): readonly Token[] {
  const end = right.findIndex(token => isSign(token, '=') || isSign(token, '≈'));
  return end === -1 ? right : right.slice(0, end);
}

/** `0.10` as `0.1`. */
function plainNumber(text: string): string {
  return /^\d+\.\d+$/.test(text) ? text.replace(/\.?0+$/, '') : text;
}
