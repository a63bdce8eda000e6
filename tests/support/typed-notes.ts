import { readdirSync, readFileSync } from 'node:fs';

const root = new URL('../../', import.meta.url);

/** The notes of the repository that have something to mend, by their paths. */
export const NOTES_TO_MEND: readonly string[] = [
  'tests/rules/',
  'tests/slips/',
  'examples/careless/',
  'tests/natural-typing/',
].flatMap(folder =>
  readdirSync(new URL(folder, root))
    .filter(name => name.endsWith('.md') && name !== 'README.md')
    .sort()
    .map(name => `${folder}${name}`),
);

/** The text of one of them. */
export function noteText(path: string): string {
  return readFileSync(new URL(path, root), 'utf8');
}

/** The same note as other people keep it: whole in a quote, in a list, with the line ends of another system. */
export const DRESSES: Readonly<Record<string, (text: string) => string>> = {
  'as it is': text => text,
  'in a quote': text => text.replace(/^(?!$)/gm, '> ').replace(/^$/gm, '>'),
  'in a list': text => text.replace(/^(?!$)/gm, '   ').replace(/^ {3}/, '1. '),
  'with carriage returns': text => text.replace(/\n/g, '\r\n'),
};
