import type { Edit, Fix } from './problem.ts';
import { type Span, spanOf } from './syntax.ts';

/** Writes something else in the place of what was typed. */
export function replacing(span: Span, newText: string, sure = false): Fix {
  return { title: `Write ${newText.trim()}`, edits: [{ span, newText }], sure };
}

/** Puts something between two pieces, instead of the space there. */
export function inserting(between: Span, newText: string, title: string): Fix {
  return { title, edits: [{ span: between, newText }], sure: false };
}

/** Puts brackets around the text from `start` to `end`. */
export function bracketing(title: string, start: number, end: number): Fix {
  const edits: Edit[] = [
    { span: spanOf(start, start), newText: '(' },
    { span: spanOf(end, end), newText: ')' },
  ];
  return { title, edits, sure: false };
}

/** Takes out what does not belong there. */
export function removing(span: Span, text: string): Fix {
  return { title: `Leave out ${text}`, edits: [{ span, newText: '' }], sure: true };
}
