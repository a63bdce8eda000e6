import { escapeControls } from '../escape-controls.ts';

/**
 * A text as XML holds it, in an element or an attribute. What XML forbids even as a reference, and what could trick a
 * terminal, is written out, as in `<U+0001>`; line ends stay what they are.
 */
export function xmlText(text: string): string {
  return text
    .split('\n')
    .map(line =>
      escapeControls(line)
        .replace(/[\ufffe\uffff]/g, writtenOut)
        .replace(/[&<>"']/g, named),
    )
    .join('&#10;');
}

/** The two signs that are no letters and that XML forbids besides the controls. */
function writtenOut(sign: string): string {
  return `<U+${sign.charCodeAt(0).toString(16).toUpperCase()}>`;
}

function named(sign: string): string {
  return NAMES[sign] ?? sign;
}

const NAMES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
