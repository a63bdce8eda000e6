import type { Code, Html, InlineCode, Nodes, Root } from 'mdast';
import type { CompileContext, Token, Extension as TreeExtension } from 'mdast-util-from-markdown';
import remarkParse from 'remark-parse';
import { type Processor, unified } from 'unified';
import { fenceFromTokens, prefixBeside } from './fence-lines.ts';
import type { CodeSpan, CommentLine, Fence } from './syntax.ts';
import { commentSpans } from './working-comments.ts';

declare module 'mdast' {
  interface CodeData {
    /** The tokens of a fence: its opening and closing lines, and each line of content that is not empty. */
    fence?: { readonly fences: Token[]; readonly values: Token[] };
  }
}

/** What a piece of Markdown holds, with offsets into the piece. */
export interface MarkdownPiece {
  /** Every fenced code block that ends within the piece, ours or not. */
  readonly fences: readonly Fence[];
  readonly codeSpans: readonly CodeSpan[];
  /** Comment lines of workings and figures. */
  readonly comments: readonly CommentLine[];
  /** The block at the left margin that is still open where the piece ends; null where none is. */
  readonly open: OpenBlock | null;
}

export type OpenBlock =
  | { readonly kind: 'fence'; readonly fence: Fence }
  /** An HTML block; `start` is where it begins. */
  | { readonly kind: 'html'; readonly start: number };

/** How much is remembered of what remark made of a piece: pieces of notes are alike again and again. */
const MEMORY = { pieces: 2000, longest: 1000 };

const memory = new Map<string, MarkdownPiece>();

/** What `readMarkdown` gives, remembered from before if the piece is a short one. */
export function recallMarkdown(piece: string, options: ReadingOptions): MarkdownPiece {
  if (MEMORY.longest < piece.length) {
    return readMarkdown(piece, options);
  }
  const key = `${options.last}${options.withSpans}${piece}`;
  let known = memory.get(key);
  if (known === undefined) {
    known = readMarkdown(piece, options);
    if (MEMORY.pieces <= memory.size) {
      memory.clear();
    }
    memory.set(key, known);
  }
  return known;
}

export interface ReadingOptions {
  /** Whether the note ends where the piece does. */
  readonly last: boolean;
  /** Whether code spans are wanted. */
  readonly withSpans: boolean;
}

/**
 * Lets remark-parse read a piece of Markdown, and gives the fenced code blocks and code spans that it finds.
 *
 * The piece begins where no block is open. Unless it ends with the note (`last`), it ends below a blank
 * line and more may follow: then a paragraph put below it shows whether everything in it is closed, since only an
 * open fence or HTML block takes that paragraph in. Code spans are looked for only `withSpans`: without them a
 * paragraph's text costs no time.
 */
function readMarkdown(piece: string, options: ReadingOptions): MarkdownPiece {
  const parser = options.withSpans ? codeParser : fenceParser;
  // Only a byte-order mark at the very start is swallowed, and it does not count: so one of our own
  // keeps any other where it is.
  const tree = parser.parse(options.last ? `\uFEFF${piece}` : `\uFEFF${piece}x`);
  const fences: Fence[] = [];
  const codeSpans: CodeSpan[] = [];
  const comments: CommentLine[] = [];
  visitCode(tree, (node, depth) => {
    if (node.type === 'inlineCode') {
      codeSpans.push(codeSpan(piece, node));
    } else if (node.type === 'html') {
      const start = node.position!.start.offset!;
      const prefix = prefixBeside(piece, start);
      for (const span of commentSpans(piece, start, node.position!.end.offset!)) {
        comments.push({ span, depth, prefix });
      }
    } else if (node.data?.fence !== undefined) {
      const span = { start: node.position!.start.offset!, end: node.position!.end.offset! };
      fences.push(fenceFromTokens(piece, span, node.data.fence.fences, node.data.fence.values, options.last));
    }
  });
  const tail = tree.children.at(-1);
  if (!options.last && tail !== undefined && tail.position!.start.offset! < piece.length) {
    if (tail.type === 'html') {
      return { fences, codeSpans, comments, open: { kind: 'html', start: tail.position!.start.offset! } };
    }
    if (tail.type === 'code') {
      return {
        ...{ fences: fences.slice(0, -1), codeSpans, comments },
        open: { kind: 'fence', fence: fences.at(-1)! },
      };
    }
  }
  return { fences, codeSpans, comments, open: null };
}

/** Keeps the tokens of a fence beside its node, since the node's own value does not tell where each line stands. */
const fenceTokens: TreeExtension = {
  enter: {
    codeFencedFence(this: CompileContext, token) {
      const node = this.stack.findLast(open => open.type === 'code')!;
      node.data ??= {};
      node.data.fence ??= { fences: [], values: [] };
      node.data.fence.fences.push(token);
    },
    codeFlowValue(this: CompileContext, token) {
      this.stack.findLast(open => open.type === 'code')?.data?.fence?.values.push(token);
    },
  },
  exit: { codeFlowValue() {} },
};

/** Inline constructs that never decide where a code span begins or ends; two of them take long on hostile text. */
const NEVER_IN_THE_WAY = ['attention', 'characterReference', 'hardBreakEscape'];

const EVERY_INLINE = [
  ...NEVER_IN_THE_WAY,
  'autolink',
  'characterEscape',
  'codeText',
  'htmlText',
  'labelEnd',
  'labelStartImage',
  'labelStartLink',
];

function parserWithout(constructs: readonly string[]): Processor<Root> {
  return unified()
    .use(remarkParse)
    .data('fromMarkdownExtensions', [fenceTokens])
    .data('micromarkExtensions', [{ disable: { null: [...constructs] } }])
    .freeze();
}

const codeParser = parserWithout(NEVER_IN_THE_WAY);
const fenceParser = parserWithout(EVERY_INLINE);

/**
 * Calls back for each code block, code span and block of HTML, in the order of the note, with the number of items and
 * quotes around it; no recursion, since notes nest deeply.
 */
function visitCode(tree: Root, found: (node: Code | Html | InlineCode, depth: number) => void): void {
  const waiting: { readonly node: Nodes; readonly depth: number }[] = [{ node: tree, depth: 0 }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node } = next;
    if (node.type === 'code' || node.type === 'inlineCode' || node.type === 'html') {
      found(node, next.depth);
    } else if ('children' in node) {
      const deeper = node.type === 'listItem' || node.type === 'blockquote';
      for (let i = node.children.length - 1; 0 <= i; i--) {
        const child = node.children[i]!;
        // Within a paragraph a comment is no line of its own.
        if (child.type !== 'html' || node.type !== 'paragraph') {
          waiting.push({ node: child, depth: deeper ? next.depth + 1 : next.depth });
        }
      }
    }
  }
}

/** The text between a code span's backticks; line breaks and what begins the next line count as blanks. */
function codeSpan(piece: string, node: InlineCode): CodeSpan {
  const typed = piece.slice(node.position!.start.offset, node.position!.end.offset);
  const marks = /^`+/.exec(typed)![0].length;
  const text = typed
    .slice(marks, -marks)
    .replace(/(?:\r\n|[\n\r])[ \t>]*/g, blanks => ' '.repeat(blanks.length));
  return { text, start: node.position!.start.offset! + marks };
}
