/** A drawing taken apart by a strict little reader: whatever is not well-formed throws. */
export interface Piece {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly inside: readonly Piece[];
  /** The text directly in it. */
  readonly text: string;
}

const NAME = /^[A-Za-z_][\w.-]*/;
const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
// XML 1.0 (W3C, fifth edition) 2.2: what a document may hold.
const FORBIDDEN = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/u;

/** Reads one element and nothing else; XML 1.0 without comments, sections and declarations, which no drawing has. */
export function readXml(text: string): Piece {
  if (FORBIDDEN.test(text)) throw new Error('a character that XML does not allow');
  const source = text.trim();
  const { piece, end } = readElement(source, 0);
  if (end !== source.length) throw new Error(`more behind the root: ${source.slice(end, end + 40)}`);
  return piece;
}

function readElement(source: string, start: number): { readonly piece: Piece; readonly end: number } {
  if (source[start] !== '<') throw new Error(`no element at ${start}`);
  const name = NAME.exec(source.slice(start + 1, start + 60))?.[0];
  if (name === undefined) throw new Error(`no name at ${start}`);
  let at = start + 1 + name.length;
  const attributes = new Map<string, string>();
  for (;;) {
    const more = /^\s+([A-Za-z_][\w:.-]*)="([^"<]*)"/.exec(source.slice(at));
    if (more === null) break;
    if (attributes.has(more[1]!)) throw new Error(`${more[1]} twice on ${name}`);
    attributes.set(more[1]!, plainText(more[2]!));
    at += more[0].length;
  }
  if (source.startsWith('/>', at)) return { piece: { name, attributes, inside: [], text: '' }, end: at + 2 };
  if (source[at] !== '>') throw new Error(`${name} is not closed: ${source.slice(at, at + 30)}`);
  at += 1;
  const inside: Piece[] = [];
  let text = '';
  for (;;) {
    const next = source.indexOf('<', at);
    if (next < 0) throw new Error(`${name} has no end`);
    text += plainText(source.slice(at, next));
    if (source.startsWith('</', next)) {
      if (!source.startsWith(`</${name}>`, next)) throw new Error(`${name} is ended by another`);
      return { piece: { name, attributes, inside, text }, end: next + name.length + 3 };
    }
    const child = readElement(source, next);
    inside.push(child.piece);
    at = child.end;
  }
}

function plainText(text: string): string {
  if (text.includes('>')) throw new Error('a bare >');
  return text.replace(/&([^;]*);?/g, (whole, name: string) => {
    const meant = ENTITIES[name];
    if (meant === undefined || !whole.endsWith(';')) throw new Error(`no such entity: ${whole}`);
    return meant;
  });
}

/** All pieces in and below one, itself first. */
export function piecesOf(piece: Piece): readonly Piece[] {
  return [piece, ...piece.inside.flatMap(piecesOf)];
}

/** The pieces of a class, in and below one. */
export function ofClass(piece: Piece, name: string): readonly Piece[] {
  return piecesOf(piece).filter(each => (each.attributes.get('class') ?? '').split(' ').includes(name));
}

export function theOnly(pieces: readonly Piece[], what: string): Piece {
  if (pieces.length !== 1) throw new Error(`${pieces.length} of ${what}`);
  return pieces[0]!;
}

export interface Stroke {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** The straight strokes of the paths of a class. */
export function strokesOf(piece: Piece, name: string): readonly Stroke[] {
  return ofClass(piece, name)
    .filter(each => each.name === 'path')
    .flatMap(path =>
      [...(path.attributes.get('d') ?? '').matchAll(/M(\S+) (\S+?)L(\S+) ([^M\s]+)/g)].map(match => {
        const [x1, y1, x2, y2] = match.slice(1).map(Number);
        return { x1: x1!, y1: y1!, x2: x2!, y2: y2! };
      }),
    );
}

/** The texts of a group, with their places. */
export function textsOf(piece: Piece, name: string): readonly { x: number; y: number; text: string }[] {
  return ofClass(piece, name).flatMap(group =>
    piecesOf(group)
      .filter(each => each.name === 'text')
      .map(each => ({
        x: Number(each.attributes.get('x')),
        y: Number(each.attributes.get('y')),
        text: each.text,
      })),
  );
}
