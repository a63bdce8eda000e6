import { examineNote } from '../checks/examine.ts';
import { lineIndex } from '../checks/line-index.ts';
import { mayTell } from '../checks/settings.ts';
import type { Way } from '../workings/working.ts';
import { type WorkingForm, workingText } from '../workings/working-text.ts';
import { complain, type ExitStatus } from './complain.ts';
import { escapeControls } from './escape-controls.ts';
import { namedBlocks, unknownBlock } from './named-blocks.ts';
import { type ConfigChoice, noteSettings } from './note-settings.ts';
import { standardOutput } from './output.ts';
import { writeWorkings } from './work-insert.ts';
import { blockName, tellWhatIsMissing, type Work } from './work-lacks.ts';
import { readTarget } from './work-target.ts';

export interface WorkOptions {
  /** Null where nobody says: text to read, Markdown to write into the note. */
  readonly form: WorkingForm | null;
  readonly way: Way | null;
  /** What is written into the note: workings where they are missing or stale, only stale ones, or nothing. */
  readonly write: 'missing' | 'stale' | null;
  /** What a note from standard input is called; null where nobody says. */
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
}

/**
 * Prints how the quantities of a note's blocks follow from their records, or writes it into the note.
 *
 * 0: all that is asked for was worked out; 1: some of it cannot be; 2: the tool could not do its work.
 */
export async function work(typed: string, options: WorkOptions): Promise<ExitStatus> {
  const target = await readTarget(typed, options.stdinFilename);
  if (!target.ok) return unable(target.trouble);
  try {
    const how = await noteSettings(options.config)(target.path ?? options.stdinFilename ?? '-');
    if (!how.ok) return unable(how.troubles);
    if (!mayTell(how.settings)) {
      complain(
        `${target.shown} is for students to work out, as ${how.config} says (\`student\`), so no working is shown`,
      );
      return 1;
    }
    const note = examineNote(target.text, how.settings);
    if (note === null || note.fences === 0) {
      complain(`${target.shown} holds no measurement block, so there is nothing to work out`);
      return 1;
    }
    const blocks = namedBlocks(note, target.block);
    if (blocks === null) return unable(unknownBlock(note, target));
    const job = { target, note, index: lineIndex(note.text), blocks };
    return options.write === null ? await printed(job, options) : await writeWorkings(job, options);
  } catch (error) {
    return unable(
      `${target.shown} could not be worked out, which is a fault of leastwise and not of the note (${String(error)})`,
    );
  }
}

function unable(troubles: string | readonly string[]): ExitStatus {
  for (const trouble of [troubles].flat()) complain(trouble);
  return 2;
}

async function printed(job: Work, { form, way }: WorkOptions): Promise<ExitStatus> {
  const { note, blocks } = job;
  const texts = blocks.map(block => workingText(note, block, form ?? 'text', { way }));
  const several = texts.filter(text => text !== '').length > 1;
  const output = standardOutput();
  let isFirst = true;
  for (const [at, text] of texts.entries()) {
    if (text === '') continue;
    const heading = several ? [headingOf(blockName(job, blocks[at]!), form ?? 'text')] : [];
    await output.write(isFirst ? '' : '\n');
    await output.write([...heading, text].map(each => `${escapedLines(each)}\n`).join(''));
    isFirst = false;
  }
  const failure = await output.end();
  if (failure !== null) return unable(failure);
  return tellWhatIsMissing(job, texts) ? 1 : 0;
}

function headingOf(name: string, form: WorkingForm): string {
  switch (form) {
    case 'lines':
      return `# ${name}`;
    case 'markdown':
      return `## ${name}\n`;
    case 'text':
      return `${name}\n${'='.repeat(name.length)}\n`;
  }
}

/** Line by line, since a line break is what it should be here. */
function escapedLines(text: string): string {
  return text.split('\n').map(escapeControls).join('\n');
}
