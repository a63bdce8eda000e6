import { instrumentNamed } from '../language/instruments.ts';
import { findTerm, nearTerms } from '../language/terms.ts';
import { INSTRUMENT_ENTRIES, RULE_ENTRIES, SLIP_ENTRIES, TERM_ENTRIES } from '../reference/entries.ts';
import type { Entry } from '../reference/entry.ts';
import { type Colours, coloursFor } from './colours.ts';
import { complain, type ExitStatus } from './complain.ts';
import { displayWidthFor } from './display-width.ts';
import { standardOutput } from './output.ts';
import { isTerminal, outputWidth } from './terminal.ts';
import { wantsColour } from './wants-colour.ts';
import { wrap } from './wrap.ts';

const WIDEST = 100;

/** Explains a rule, a slip, a term or an instrument by its name; without a name lists them all. */
export async function explain(typed: string): Promise<ExitStatus> {
  const colours = await coloursFor(wantsColour(process.env, await isTerminal(1)));
  const width = Math.min(WIDEST, await outputWidth());
  const output = standardOutput();
  const entries = entriesNamed(typed);
  if (typed.trim() === '') await output.write(allNames(colours, width));
  else if (entries.length > 0) {
    for (const entry of entries) await output.write(await explained(entry, colours, width));
  } else {
    const near = nearNames(typed);
    const hint = near.length > 0 ? `did you mean ${near.join(', ')}?` : '`leastwise explain` lists all names';
    complain(`there is no rule, slip, term or instrument ${typed}: ${hint}`);
    return 2;
  }
  const failure = await output.end();
  if (failure !== null) complain(failure);
  return failure === null ? 0 : 2;
}

function entriesNamed(typed: string): readonly Entry[] {
  const hyphened = typed.trim().toLowerCase().replace(/\s+/g, '-');
  const term = findTerm(typed)?.name;
  const instrument = instrumentNamed(typed)?.name;
  return [
    ...[...RULE_ENTRIES, ...SLIP_ENTRIES].filter(entry => entry.name === hyphened),
    ...TERM_ENTRIES.filter(entry => entry.name === term),
    ...INSTRUMENT_ENTRIES.filter(entry => entry.name === instrument),
  ];
}

/** Names of terms that are a letter or two off, or else names of rules and slips that share a word with what was typed. */
function nearNames(typed: string): readonly string[] {
  const terms = [...new Set(nearTerms(typed).map(({ term }) => term.name))];
  if (terms.length > 0) return terms.slice(0, 3);
  const words = typed
    .toLowerCase()
    .split(/[\s-]+/)
    .filter(word => word.length > 2);
  const shared = (name: string) => words.filter(word => name.split('-').includes(word)).length;
  return [...RULE_ENTRIES, ...SLIP_ENTRIES]
    .map(entry => entry.name)
    .filter(name => shared(name) > 0)
    .sort((a, b) => shared(b) - shared(a))
    .slice(0, 5);
}

async function explained(entry: Entry, colours: Colours, width: number): Promise<string> {
  const displayWidth = await displayWidthFor(JSON.stringify(entry));
  const paragraph = (text: string) => `${wrap(text.replaceAll('\n', ' '), width, displayWidth).join('\n')}\n`;
  const fact = (label: string, text: string) =>
    wrap(text, width - 10, displayWidth)
      .map((line, at) => `${colours.dim((at === 0 ? label : '').padEnd(10))}${line}\n`)
      .join('');
  const note = (label: string, text: string) => `${colours.dim(label)}\n\n${indented(text)}\n`;
  const paragraphs = [
    `${colours.bold(entry.name)} ${colours.dim(`(${entry.sort})`)}\n`,
    paragraph(entry.summary),
    ...entry.explanation
      .split(/\n\s*\n/)
      .filter(text => text.trim() !== '')
      .map(text => paragraph(text.trim())),
  ];
  const facts = [
    entry.also.length === 0 ? '' : fact('also', entry.also.join(', ')),
    entry.formula === null ? '' : fact('formula', entry.formula),
    entry.unit === null ? '' : fact('unit', entry.unit),
    entry.sign === null ? '' : fact('sign', entry.sign),
    entry.caution === null ? '' : fact('caution', entry.caution),
    entry.kind === 'term' || entry.kind === 'instrument'
      ? fact('example', entry.example)
      : note('example', entry.example),
    entry.fixedExample === null ? '' : note('put right', entry.fixedExample),
  ];
  return `${paragraphs.join('\n')}\n${facts.join('')}`;
}

function indented(note: string): string {
  return `${note
    .trim()
    .split('\n')
    .map(line => `    ${line}`.trimEnd())
    .join('\n')}\n`;
}

function allNames(colours: Colours, width: number): string {
  const list = (title: string, entries: readonly Entry[]) => {
    const widest = Math.max(0, ...entries.map(entry => entry.name.length));
    const lines = entries.map(({ name, summary }) =>
      wrap(summary, width - widest - 4, text => text.length)
        .map((line, at) => `  ${(at === 0 ? name : '').padEnd(widest)}  ${colours.dim(line)}\n`)
        .join(''),
    );
    return `${colours.bold(title)}\n${lines.join('')}`;
  };
  return [
    list('Rules', RULE_ENTRIES),
    list('Slips', SLIP_ENTRIES),
    list('Terms', TERM_ENTRIES),
    list('Instruments', INSTRUMENT_ENTRIES),
  ].join('\n');
}
