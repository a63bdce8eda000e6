import { type Draft, report } from './draft.ts';
import type { ClosedPosition, Stated } from './measurement.ts';
import { tokensSpan } from './parser.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';

/**
 * Reads how the closed instrument stands.
 *
 *     closed: vernier zero right, division 3
 *             ^^^^^^^^^^^^^^^^^^  ^^^^^^^^^^
 *             scale and side     line that coincides
 *
 * Right, visible, below the line and on the arc are positive; left, hidden, above the line and off the arc negative.
 */
export function interpretClosed(draft: Draft, right: readonly Token[], span: Span): void {
  const position = right.length === 0 ? null : readPosition(draft, right);
  if (position === 'reported' || position === null) draft.broken.add('closed');
  if (position === 'reported') return;
  if (position === null) {
    const said = right.length === 0 ? 'nothing' : tokensText(right);
    report(
      draft,
      'unreadable-line',
      right.length === 0 ? span : tokensSpan(right),
      `${said} does not say how the closed instrument stands; write for example zeros coincide, vernier zero right, division 3, or circular zero above the line, division 47`,
    );
    return;
  }
  draft.closed.push({ position, span, valueSpan: tokensSpan(right) });
}

function readPosition(draft: Draft, tokens: readonly Token[]): ClosedPosition | 'reported' | null {
  const parts = splitAtCommas(tokens);
  const text = tokensText(tokens)
    .toLowerCase()
    .replace(/[.,;]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  if (
    /^(?:the )?(?:both )?(?:zeros?|zeroes|zero marks?|zero lines?) (?:coincide|coinciding|agree|in line|are in line|match)/.test(
      text,
    )
  )
    return { kind: 'zeros-coincide' };
  if (/^(?:no|nil) zero error$/.test(text)) return { kind: 'zeros-coincide' };
  const offset = readOffset(draft, tokens, text);
  if (offset !== null) return offset;
  const side = readSide(text);
  if (side === null) return null;
  let division: Stated | null = null;
  let vernierDivision: Stated | null = null;
  const fromFarEnd = /from the (?:far|other|right|last) end/.test(text);
  for (const part of parts) {
    const number = part.find(token => token.kind === 'number');
    if (number === undefined) continue;
    const stated = readStated(draft, [number], { mode: 'value' });
    if (stated === null) return 'reported';
    const words = tokensText(part).toLowerCase();
    if (/^vernier (?:scale )?(?:division|line|coincidence)/.test(words) && side.scale !== 'vernier')
      vernierDivision ??= stated;
    else division ??= stated;
  }
  if (division === null && vernierDivision === null) return null;
  return { kind: 'division', ...side, division, vernierDivision, fromFarEnd };
}

type Side = Pick<Extract<ClosedPosition, { readonly kind: 'division' }>, 'side' | 'scale'>;

function readSide(text: string): Side | null {
  const vernier =
    /(?:vernier|sliding)(?: scale)?(?: zero)?(?: is| lies| stands)?(?: to)?(?: the)? (right|left|ahead|behind)/.exec(
      text,
    ) ??
    /zero of(?: the)? vernier(?: scale)?(?: is| lies| stands)?(?: to| on)?(?: the)? (right|left)/.exec(text);
  if (vernier !== null)
    return {
      scale: 'vernier',
      side: vernier[1] === 'right' || vernier[1] === 'ahead' ? 'positive' : 'negative',
    };
  const linear =
    /linear(?: scale)? zero(?: is| stands)? (barely visible|just visible|visible|hidden|not visible)/.exec(
      text,
    ) ??
    /zero of(?: the)? linear scale(?: is)? (barely visible|just visible|visible|hidden|not visible)/.exec(
      text,
    );
  if (linear !== null) {
    const seen = linear[1]!;
    const side =
      seen === 'visible' ? 'positive' : seen === 'hidden' || seen === 'not visible' ? 'negative' : 'nearest';
    return { scale: 'linear', side };
  }
  const circular =
    /(?:circular|head|thimble)(?: scale)? zero(?: is| lies| stands)?(?: \S+)?? (above|below)/.exec(text) ??
    /zero of(?: the)? (?:circular|head)(?: scale)?(?: is| lies| stands)? (above|below)/.exec(text);
  if (circular !== null)
    return { scale: 'circular', side: circular[1] === 'below' ? 'positive' : 'negative' };
  return null;
}

/** `circular zero 3 divisions above the line`, `3 divisions below the line`, `4′ off the arc`. */
function readOffset(
  draft: Draft,
  tokens: readonly Token[],
  text: string,
): ClosedPosition | 'reported' | null {
  const onArc = /\b(on|off) the arc/.exec(text);
  const offLine = /\d\s*(?:circular |head )?(?:scale )?(?:divisions?|divs?|csd|hsd) (above|below)/.exec(text);
  if (onArc === null && offLine === null) return null;
  const side = onArc?.[1] === 'on' || offLine?.[1] === 'below' ? 'positive' : 'negative';
  const from = tokens.findIndex(token => token.kind === 'number');
  if (from === -1) return null;
  let to = from;
  while (to < tokens.length && isMeasure(tokens[to]!)) to += 1;
  const counted =
    tokens[to] !== undefined && /^(?:divisions?|divs?|csd|hsd|vsd|circular|head)$/i.test(tokens[to]!.text);
  const stated = readStated(draft, tokens.slice(from, to), { mode: 'value' });
  if (stated === null) return 'reported';
  if (counted) return { kind: 'offset', side, divisions: stated, angle: null };
  return stated.hasUnit ? { kind: 'offset', side, divisions: null, angle: stated } : null;
}

function isMeasure(token: Token): boolean {
  return (
    token.kind === 'number' ||
    token.kind === 'prime' ||
    token.kind === 'degree' ||
    (token.kind === 'operator' && token.text === '/') ||
    (token.kind === 'word' && /^(?:deg|degrees?|arcmin|arcsec|min|minutes?|sec|seconds?)$/i.test(token.text))
  );
}

function splitAtCommas(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const parts: Token[][] = [[]];
  for (const token of tokens) {
    if (token.kind === 'operator' && (token.text === ',' || token.text === ';')) parts.push([]);
    else parts[parts.length - 1]!.push(token);
  }
  return parts;
}
