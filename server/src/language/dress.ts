import { bracketSingle, finishPart, openFraction } from './fraction-dress.ts';
import { isGreekName } from './greek.ts';
import { latexCommand } from './latex-commands.ts';
import { characterAt, emit, emitAt, type OpenBrace, type Scan, skipBlank } from './scan.ts';
import { spanOf, type Token, type TokenKind } from './syntax.ts';
import { readBarred, withSubscripts } from './word-lexer.ts';

/**
 * Reads one piece of LaTeX dress, if the line goes on with one, and says whether it did.
 *
 * What only changes the looks (`\text{…}`, `\left`, `\,`) makes no token; signs and Greek letters
 * (`\times`, `\rho`) make the token they stand for; `\frac{a}{b}` becomes `((a)/(b))` and
 * `\sqrt{x}` becomes `sqrt(x)`.
 */
export function readDress(scan: Scan): boolean {
  const character = characterAt(scan, scan.at);
  if (character === '\\') {
    if (!readAlignment(scan, ENVIRONMENT)) readCommand(scan);
    return true;
  }
  if (character === '&') return readAlignment(scan, BEFORE_SIGN);
  if (character === '{') {
    open(scan, { role: 'plain', from: scan.dressFrom ?? scan.at, firstToken: scan.tokens.length });
    scan.at += 1;
    scan.dressFrom = null;
    return true;
  }
  if (character === '}') {
    closeBrace(scan);
    return true;
  }
  if (character === '^') return readRaised(scan);
  return false;
}

/** `\begin{aligned}` and `\end{aligned}` around a chain; the `&` at which its lines are set below each other. */
const ENVIRONMENT = /\\(?:begin|end)\{(?:aligned|align|gather|gathered|equation|split)\*?\}/y;
const BEFORE_SIGN = /&(?=\s*(?:=|≈|\\approx(?![A-Za-z])))/y;

function readAlignment(scan: Scan, dress: RegExp): boolean {
  dress.lastIndex = scan.at;
  const found = dress.exec(scan.text.slice(0, scan.end));
  if (found === null) return false;
  scan.at += found[0].length;
  scan.spaced = true;
  return true;
}

/** `\name` or a backslash and one other character; a lone backslash is an operator of its own. */
function readCommand(scan: Scan): void {
  const from = scan.at;
  let end = from + 1;
  while (letterCode(characterAt(scan, end))) end += 1;
  if (end === from + 1) end = Math.min(end + 1, scan.end);
  const name = scan.text.slice(from + 1, end);
  const command = latexCommand(name);
  if (command === null) {
    readNamedCommand(scan, name, end);
    return;
  }
  switch (command.kind) {
    case 'space':
      scan.spaced = true;
      scan.at = end;
      return;
    case 'nothing':
      scan.at = end;
      if (name.length > 1) scan.dressFrom ??= from;
      return;
    case 'wrapper':
      scan.at = end;
      scan.dressFrom ??= from;
      return;
    case 'token':
      emit(scan, command.token, command.text, end);
      return;
    case 'fraction':
      openFraction(scan, end);
      return;
    case 'root':
      emit(scan, 'word', 'sqrt', end);
      openArgument(scan);
      return;
  }
}

/** A Greek letter, a function or an unknown command is a word that is spelt like the command. */
function readNamedCommand(scan: Scan, name: string, end: number): void {
  if (!letterCode(name[0])) {
    emit(scan, 'operator', `\\${name}`, end);
    return;
  }
  const barred = name === 'bar' || name === 'overline' ? readBarred(scan.text, end, scan.end) : null;
  if (barred !== null) {
    emit(scan, 'word', barred.text, barred.end);
    return;
  }
  const spelt = name.startsWith('var') && isGreekName(name.slice(3)) ? name.slice(3) : name;
  const word = withSubscripts(scan.text, { text: spelt === 'Omega' ? 'Ω' : spelt, end }, scan.end);
  emit(scan, 'word', word.text, word.end);
  // LaTeX swallows the space behind a command: `\mu m` is the unit µm.
  if (name === 'mu') scan.at = skipBlank(scan, scan.at);
}

function letterCode(character: string | undefined): boolean {
  return character !== undefined && /^[A-Za-z]$/.test(character);
}

/** `\sqrt{x}`, `\sqrt2`; before anything else the root stays without brackets. */
function openArgument(scan: Scan): void {
  const at = skipBlank(scan, scan.at);
  if (characterAt(scan, at) === '{') {
    open(scan, { role: 'argument', from: at, firstToken: scan.tokens.length });
    emitAt(scan, 'operator', '(', at, at + 1);
    return;
  }
  bracketSingle(scan, at);
}

/**
 * What follows a `^`: the degree sign in `30^\circ`, a prime in `31^\prime`, an exponent in braces.
 *
 *     > | 30^\circ
 *           ^^^^^^         one degree sign
 *     > | s^{-2}
 *          ^               the exponent's sign
 *           ^              its bracket
 */
function readRaised(scan: Scan): boolean {
  const from = scan.at;
  let at = skipBlank(scan, from + 1);
  const braced = characterAt(scan, at) === '{';
  if (braced) at = skipBlank(scan, at + 1);
  const sign = raisedSign(scan, at);
  if (sign !== null) {
    const end = braced ? skipBlank(scan, sign.end) : sign.end;
    if (!braced || characterAt(scan, end) === '}') {
      emit(scan, sign.kind, sign.text, braced ? end + 1 : end);
      return true;
    }
  }
  emit(scan, 'operator', '^', from + 1);
  if (braced) {
    const brace = skipBlank(scan, from + 1);
    open(scan, { role: 'argument', from: brace, firstToken: scan.tokens.length });
    emitAt(scan, 'operator', '(', brace, brace + 1);
  }
  return true;
}

const RAISED: readonly { readonly written: string; readonly kind: TokenKind; readonly text: string }[] = [
  { written: '\\circ', kind: 'degree', text: '°' },
  { written: '\\degree', kind: 'degree', text: '°' },
  { written: '∘', kind: 'degree', text: '°' },
  { written: '°', kind: 'degree', text: '°' },
  { written: '\\prime\\prime', kind: 'prime', text: '″' },
  { written: '\\prime', kind: 'prime', text: '′' },
  { written: "''", kind: 'prime', text: '″' },
  { written: "'", kind: 'prime', text: '′' },
];

function raisedSign(scan: Scan, at: number): { kind: TokenKind; text: string; end: number } | null {
  for (const { written, kind, text } of RAISED) {
    if (!scan.text.startsWith(written, at)) continue;
    const end = at + written.length;
    if (end <= scan.end && !(written.startsWith('\\') && letterCode(characterAt(scan, end))))
      return { kind, text, end };
  }
  return null;
}

function open(scan: Scan, brace: OpenBrace): void {
  scan.braces.push(brace);
}

function closeBrace(scan: Scan): void {
  const brace = scan.braces.pop();
  const at = scan.at;
  if (brace === undefined) {
    scan.at += 1;
    return;
  }
  switch (brace.role) {
    case 'plain':
      scan.at += 1;
      extendOverGroup(scan, brace, at + 1);
      return;
    case 'argument':
      emitAt(scan, 'operator', ')', at, at + 1);
      return;
    case 'numerator':
    case 'denominator':
      emitAt(scan, 'operator', ')', at, at + 1);
      finishPart(scan, brace.role, brace.firstToken);
      return;
  }
}

/**
 * Lets the tokens of a dressed group reach over its dress, so that who replaces them replaces it whole.
 *
 *     > | 2.45\,\text{cm}
 *               ^^^^^^^^^   the word cm
 */
function extendOverGroup(scan: Scan, brace: OpenBrace, end: number): void {
  const { tokens, offset } = scan;
  const first = tokens[brace.firstToken];
  const last = tokens[tokens.length - 1];
  if (first === undefined || last === undefined) return;
  tokens[brace.firstToken] = { ...first, span: spanOf(offset + brace.from, first.span.end) };
  const wide = tokens[tokens.length - 1] as Token;
  tokens[tokens.length - 1] = { ...wide, span: spanOf(wide.span.start, offset + end) };
}
