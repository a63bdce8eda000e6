import { type ClosedPart, type ClosedScale, closedWords } from './closed-words.ts';
import { type Draft, leaveUnread, replaceFix, report } from './draft.ts';
import type { ClosedPosition, Stated } from './measurement.ts';
import { tokensSpan } from './parser.ts';
import type { Fix } from './problem.ts';
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
 * The whole statement is read: a word or a number that fits nowhere, or parts that do not fit together, are reported
 * where they stand, and nothing is recorded.
 */
export function interpretClosed(draft: Draft, right: readonly Token[], span: Span): void {
  const position = right.length === 0 ? null : readPosition(draft, right, span);
  if (position === null) {
    leaveUnread(draft, 'closed');
    if (right.length === 0)
      report(
        draft,
        'unreadable-line',
        span,
        `nothing does not say how the closed instrument stands; write for example ${EXAMPLES}`,
      );
    return;
  }
  draft.closed.push({ position, span, valueSpan: tokensSpan(right) });
}

const EXAMPLES =
  'zeros coincide, vernier zero right, division 3, or circular zero above the line, division 47';

/** What the statement must say, by its scale, for messages. */
function exampleOf(scale: ClosedScale | null): string {
  switch (scale) {
    case 'vernier':
      return 'vernier zero right, division 3 or vernier zero left, division 7';
    case 'circular':
      return 'circular zero above the line, division 47 (the division on the line), or 3 divisions above the line (so many from its zero)';
    case 'linear':
      return 'linear zero visible, division 3 or linear zero hidden, division 47';
    case 'arc':
      return "4' on the arc or 4' off the arc";
    case null:
      return EXAMPLES;
  }
}

/** What the parts say together; each is said once. */
interface Said {
  readonly scale: ClosedScale;
  readonly side: 'positive' | 'negative' | 'nearest';
  readonly line: Part<'line'> | null;
  readonly vernierLine: Part<'line'> | null;
  readonly count: Part<'count'> | null;
  readonly size: Part<'size'> | null;
  readonly fromFarEnd: boolean;
}

type Part<K extends ClosedPart['kind']> = Extract<ClosedPart, { readonly kind: K }>;

function readPosition(draft: Draft, tokens: readonly Token[], span: Span): ClosedPosition | null {
  const ask = (at: readonly Token[], message: string, fixes: readonly Fix[] = []): null => {
    report(draft, 'unreadable-line', tokensSpan(at), message, fixes);
    return null;
  };
  const { parts, unread } = closedWords(tokens);
  const scale = scaleOf(parts);
  if (unread.length > 0) {
    return parts.length === 0
      ? ask(
          tokens,
          `${tokensText(tokens)} does not say how the closed instrument stands; write for example ${EXAMPLES}`,
        )
      : ask(
          unread,
          `${tokensText(unread)} is not understood here, so nobody knows how the closed instrument stands; write for example ${exampleOf(scale)}`,
        );
  }
  if (parts.length === 1 && parts[0]!.kind === 'zeros coincide') return { kind: 'zeros-coincide' };
  const said = saidTogether(parts);
  if (typeof said === 'string') return ask(tokens, `${said}; write for example ${exampleOf(scale)}`);
  const { line, count, size, side } = said;
  if (size !== null) {
    if (said.scale === 'arc' && line === null && count === null && side !== 'nearest') {
      const angle = readStated(draft, size.number.map(asAngle), { mode: 'value' });
      return angle && { kind: 'offset', side, divisions: null, angle };
    }
    return askForError(ask, tokens, size, side, span);
  }
  if (count !== null && line === null && said.scale !== 'linear' && side !== 'nearest') {
    const isFarLine = said.scale === 'vernier' && said.fromFarEnd;
    if (said.scale === 'vernier' && !isFarLine) return askForLine(ask, tokens, count);
    const divisions = readStated(draft, count.number, { mode: 'value' });
    if (divisions === null) return null;
    if (said.vernierLine !== null) {
      const [number, ...others] = said.vernierLine.numbers;
      const vernierDivision = number === undefined ? null : readStated(draft, number, { mode: 'value' });
      if (vernierDivision === null) return null;
      // Short of nought the vernier counts on from the division that is read, not from so many below nought.
      return side === 'positive' && others.length === 0
        ? {
            kind: 'division',
            side,
            scale: 'circular',
            ...lineAlone(divisions),
            vernierDivision,
            fromFarEnd: false,
          }
        : ask(
            tokens,
            `beside the vernier's line the division of the circular scale is wanted as it is read; write for example circular zero above the line, division 47, vernier division 4`,
          );
    }
    return isFarLine
      ? { kind: 'division', side, scale: 'vernier', ...lineAlone(divisions), fromFarEnd: true }
      : { kind: 'offset', side, divisions, angle: null };
  }
  if (line === null || count !== null || said.scale === 'arc')
    return ask(
      tokens,
      `${tokensText(tokens)} does not say which division is in line; write for example ${exampleOf(scale)}`,
    );
  return linePosition(draft, said, line, said.scale);
}

/** On an arc minutes are no time. */
function asAngle(token: Token): Token {
  const sign = token.kind === 'word' ? /^(?:(deg)|(min)|(sec))/i.exec(token.text) : null;
  if (sign === null) return token;
  return { ...token, text: sign[1] !== undefined ? 'deg' : sign[2] !== undefined ? 'arcmin' : 'arcsec' };
}

function lineAlone(
  division: Stated,
): Pick<Extract<ClosedPosition, { kind: 'division' }>, 'division' | 'nextDivision' | 'vernierDivision'> {
  return { division, nextDivision: null, vernierDivision: null };
}

function linePosition(
  draft: Draft,
  { side, vernierLine, fromFarEnd }: Said,
  line: Part<'line'>,
  scale: 'vernier' | 'circular' | 'linear',
): ClosedPosition | null {
  const numbers = [...line.numbers, ...(vernierLine?.numbers ?? [])].map(number =>
    readStated(draft, number, { mode: 'value' }),
  );
  if (numbers.includes(null)) return null;
  const [division, nextDivision] = numbers.slice(0, line.numbers.length);
  const vernierDivision = vernierLine === null ? null : numbers.at(-1)!;
  return {
    ...{ kind: 'division', side, scale, division: division!, nextDivision: nextDivision ?? null },
    ...{ vernierDivision, fromFarEnd },
  };
}

type Ask = (at: readonly Token[], message: string, fixes?: readonly Fix[]) => null;

/** `vernier zero right, 0.4 mm`: a length names no line; it may be the error itself. */
function askForError(
  ask: Ask,
  tokens: readonly Token[],
  size: Part<'size'>,
  side: Said['side'],
  span: Span,
): null {
  const text = tokensText(size.number);
  const error = `zero error: ${side === 'negative' ? '-' : '+'}${text}`;
  const isAlone = side !== 'nearest' && tokens.length > size.number.length;
  return ask(
    size.number,
    `${text} is no division that is in line; where it is how far the zeros are apart, write ${isAlone ? error : 'the zero error with its sign'}`,
    isAlone ? [replaceFix(`Write ${error}`, span, error, false)] : [],
  );
}

/** `vernier zero left, 4 divisions`: the line that coincides, or so many divisions of some scale. */
function askForLine(ask: Ask, tokens: readonly Token[], { number }: Part<'count'>): null {
  const from = tokens.indexOf(number[0]!);
  const counted = tokens.slice(from, from + number.length + 1);
  const line = `division ${tokensText(number)}`;
  return ask(
    counted,
    `${tokensText(counted)} may be the line that coincides or so many divisions from the main zero; where the line is meant, write ${line}`,
    [replaceFix(`Write ${line}`, tokensSpan(counted), line, false)],
  );
}

/** The scale that the statement speaks of, as far as its words tell. */
function scaleOf(parts: readonly ClosedPart[]): ClosedScale | null {
  const side = parts.find(part => part.kind === 'side');
  return side?.on ?? parts.find(part => part.kind === 'zero')?.on ?? null;
}

/** Puts the parts together; a sentence where they do not fit. */
function saidTogether(parts: readonly ClosedPart[]): Said | string {
  const all = <K extends ClosedPart['kind']>(kind: K): readonly Part<K>[] =>
    parts.filter((part): part is Part<K> => part.kind === kind);
  const [zeros, sides, lines] = [all('zero'), all('side'), all('line')];
  const [counts, sizes, ends] = [all('count'), all('size'), all('far end')];
  const [side, other] = sides;
  if (side === undefined) return 'this does not say on which side of nought the closed instrument stands';
  const isTwice = [zeros, counts, sizes, ends].some(those => those.length > 1);
  if (other !== undefined || isTwice || all('zeros coincide').length > 0)
    return 'this says two things about how the closed instrument stands';
  const scale = side.on;
  const zero = zeros[0]?.on ?? null;
  const isOwnZero = zero === scale || (scale === 'arc' && zero === 'vernier');
  if (zero !== null && !isOwnZero) return `the ${zero} zero does not stand on such a side`;
  const isNamed = zero !== null || scale === 'arc' || scale === 'linear';
  if (!isNamed && counts.length + sizes.length === 0) return 'this does not say whose zero stands there';
  if (zero === null && scale === 'linear') return 'this does not say whose zero stands there';
  const onVernier = lines.filter(line => scale !== 'vernier' && line.on === 'vernier');
  const own = lines.filter(line => !onVernier.includes(line));
  if (own.length > 1 || onVernier.length > 1) return 'this names two divisions that are in line';
  if (own.some(line => line.on !== null && line.on !== fineScale(scale)))
    return 'this names a division of another scale than the one that is read';
  if (onVernier.length > 0 && lines.some(({ numbers }) => numbers.length > 1))
    return 'with a vernier on the drum the division passed and the line that coincides are each one number';
  if (ends.length > 0 && scale !== 'vernier') return 'only the lines of a vernier are counted from an end';
  return {
    ...{ scale, side: side.side, line: own[0] ?? null, vernierLine: onVernier[0] ?? null },
    ...{ count: counts[0] ?? null, size: sizes[0] ?? null, fromFarEnd: ends.length > 0 },
  };
}

/** The scale whose division is read where this scale's zero tells the side. */
function fineScale(scale: ClosedScale): ClosedScale {
  return scale === 'linear' ? 'circular' : scale;
}
