import type { Html, Nodes } from 'mdast';
import type { CompileContext, Extension as TreeExtension } from 'mdast-util-from-markdown';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { markdownStart } from '../language/front-matter.ts';
import type { Edit } from '../language/problem.ts';
import { readingEffort } from '../language/reading-effort.ts';
import { DEEPEST_NESTING, MOST_EFFORT } from '../language/reading-limits.ts';

/** More brackets than this are no links that somebody wrote. */
const MOST_BRACKETS = 20_000;

/**
 * The edits that keep relative links and images of a note leading to the same files when it moves to another folder.
 *
 * `back` leads from that folder to the note's own, with `/` and no stroke at its end: `../bench`; empty where they are
 * the same. Only the beginning of a target changes, so that the rest stays as it was typed. Links to notes beside this
 * one stay as they are, for those are published beside it too; so do addresses, anchors, what begins at the root, and
 * code. Null for a note that is too large to be read in reasonable time.
 */
export function movedLinks(text: string, back: string): readonly Edit[] | null {
  if (back === '' || !/[[<]/.test(text)) return [];
  const plain = text.replace(/\r\n/g, ' \n').replace(/\r/g, '\n');
  const start = markdownStart(plain);
  const { effort, nesting } = readingEffort(plain, start, plain.length, false);
  if (effort > MOST_EFFORT || nesting > DEEPEST_NESTING) return null;
  if ((text.match(/[[\]<]/g)?.length ?? 0) > MOST_BRACKETS) return null;
  return targetsIn(text.slice(start)).flatMap(({ at, target }): readonly Edit[] => {
    const moved = movedStart(target, back);
    if (moved === null) return [];
    const span = { start: start + at, end: start + at + moved.taken };
    return [{ span, newText: moved.begins }];
  });
}

/** What a target begins with from the other folder, and how much of it that replaces; null for one that stays. */
function movedStart(
  target: string,
  back: string,
): { readonly begins: string; readonly taken: number } | null {
  if (/^(?:[a-z][a-z0-9+.-]*:|[/\\?#]|$)/i.test(target) || isNoteBeside(target)) return null;
  const way = back.split('/');
  let taken = 0;
  for (let step = stepAt(target, taken); step !== null; step = stepAt(target, taken)) {
    taken += step.length;
    if (step.startsWith('..')) {
      if (way.length > 0 && way.at(-1) !== '..') way.pop();
      else way.push('..');
    }
  }
  const begins = way.map(part => encodeURIComponent(part).replace(/[()'*!~]/g, hexOf)).join('/');
  const rest = target.slice(taken);
  if (begins === '') return { begins: rest === '' ? '.' : '', taken };
  return { begins: rest === '' ? begins : `${begins}/`, taken };
}

/** `./` or `../` there; null where a name follows. */
function stepAt(target: string, at: number): string | null {
  return /^\.{1,2}(?:\/+|$)/.exec(target.slice(at))?.[0] ?? null;
}

/** `other.md`, `./other.md#part`: published in the same folder as this one. */
function isNoteBeside(target: string): boolean {
  return /^(?:\.\/+)?[^/\\?#]+\.(?:md|markdown)(?:[?#]|$)/i.test(target);
}

function hexOf(sign: string): string {
  return `%${sign.charCodeAt(0).toString(16).toUpperCase()}`;
}

/** Where a link, an image or a definition leads, as it is typed, and where in the text that stands. */
interface Target {
  readonly at: number;
  readonly target: string;
}

/** All targets of a piece of Markdown, also those in tags of HTML, in their order. */
function targetsIn(piece: string): readonly Target[] {
  const found: Target[] = [];
  const keep = function (
    this: CompileContext,
    token: { start: { offset: number }; end: { offset: number } },
  ) {
    // What follows is gathered as the node's address, as it is without us.
    this.buffer();
    found.push({ at: token.start.offset, target: piece.slice(token.start.offset, token.end.offset) });
  };
  const targets: TreeExtension = {
    enter: { resourceDestinationString: keep, definitionDestinationString: keep },
  };
  const parser = unified().use(remarkParse).data('fromMarkdownExtensions', [targets]).freeze();
  // Only a byte-order mark at the very start is swallowed, and it does not count.
  const tree = parser.parse(`\uFEFF${piece}`);
  visitHtml(tree, node => found.push(...targetsOfTags(node)));
  return found.sort((a, b) => a.at - b.at);
}

/** `src="photo.png"`, `href="other.html"`; comments have none. */
function targetsOfTags({ value, position }: Html): readonly Target[] {
  // Where a line of the tag begins with signs of a quotation, its value is shorter than what is typed.
  const isPlain = position!.end.offset! - position!.start.offset! === value.length;
  if (!isPlain || value.startsWith('<!--')) return [];
  const attributes = value.matchAll(/\s(?:src|href)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/gi);
  return [...attributes].map(match => {
    const target = match[1] ?? match[2] ?? '';
    return { at: position!.start.offset! + match.index + match[0].length - 1 - target.length, target };
  });
}

/** No recursion, since notes nest deeply. */
function visitHtml(tree: Nodes, found: (node: Html) => void): void {
  const waiting: Nodes[] = [tree];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (node.type === 'html') found(node);
    else if ('children' in node) waiting.push(...node.children);
  }
}
