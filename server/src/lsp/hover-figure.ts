import { mayTell } from '../checks/settings.ts';
import { blockFigure, type Figure } from '../figures/block-figure.ts';
import { isInLetters, LETTERS } from '../figures/no-figure.ts';
import { ownerOf } from '../language/facts-error.ts';
import type { Subject } from '../language/measurement.ts';
import type { TermName } from '../language/term-names.ts';
import type { Term } from '../language/terms.ts';
import { plainMarkdown } from '../render/words-markdown.ts';
import type { NearBlocks } from './near-blocks.ts';
import { type Pointed, termOfSubject } from './pointed-at.ts';

/**
 * The instrument at the reading that something in a block is about, as an image in Markdown; empty where it is about
 * none, a sentence where its scales are in letters. For a student nothing is marked in it.
 */
export function hoverFigure(near: NearBlocks, pointed: Pointed): string {
  if (pointed.kind === 'instrument') return '';
  const { block } = pointed;
  const subject = pointed.kind === 'claim' ? pointed.claim.subject : pointed.subject;
  const term =
    pointed.kind === 'claim' || pointed.term === null ? subject && termOfSubject(subject) : pointed.term;
  if (term === null || !isSeen(term)) return '';
  const check = near.check();
  const home = subject === null ? null : ownerOf(check.facts.block(block), subject);
  const at = home?.facts.index ?? block;
  const row = rowOf(home?.subject ?? subject);
  const figure = blockFigure(check, at, {
    style: mayTell(check.settings) ? 'worked' : 'question',
    row,
    small: true,
  });
  if (figure !== null) return image(figure);
  // Of scales that are only not known yet the findings speak.
  return isInLetters(check, at) ? `There is no figure of this block, because ${LETTERS}.` : '';
}

/** What is worked out, but can be seen on the instrument all the same. */
const SEEN: ReadonlySet<TermName> = new Set<TermName>([
  'observed reading',
  'corrected reading',
  'vernier scale reading',
  'zero error',
  'zero correction',
]);

function isSeen({ kind, name }: Term): boolean {
  return kind === 'observable' || SEEN.has(name);
}

function rowOf(subject: Subject | null): number | null {
  return subject?.kind === 'term' ? subject.row : null;
}

/** An editor scrolls what is higher, and makes its pop-ups no wider. */
const MOST = { width: 480, height: 240 } as const;
/** An editor cuts off what is longer, and would show the rest as words. */
const LONGEST = 90_000;

function image({ svg, alternative, width, height }: Figure): string {
  const scale = Math.min(1, MOST.width / width, MOST.height / height);
  const sized = svg.replace(
    `width="${width}" height="${height}"`,
    `width="${Math.round(width * scale)}" height="${Math.round(height * scale)}"`,
  );
  const bytes = new TextEncoder().encode(sized.trimEnd());
  let letters = '';
  for (const byte of bytes) letters += String.fromCharCode(byte);
  const markdown = `![${plainMarkdown(alternative)}](data:image/svg+xml;base64,${btoa(letters)})`;
  return markdown.length > LONGEST ? '' : markdown;
}
