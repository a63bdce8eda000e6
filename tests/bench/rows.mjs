import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fenced, vernierBlock, withWrongReading } from './blocks.mjs';
import { cacheRows } from './cache.mjs';
import { longNote, note } from './corpus.mjs';
import { editingRows } from './editing.mjs';
import { growthRows } from './growth.mjs';
import { compare, programMemory, programTime, timed } from './measure.mjs';
import { mergingRows } from './merging.mjs';
import { seededRandom } from './random.mjs';

const root = join(import.meta.dirname, '../..');
const launcher = join(root, 'server/bin/leastwise.js');

/**
 * What is measured, each a ratio with what it must reach and what it should. `measure` gets the corpus and how much
 * of it to take; it throws where a tool is missing or a program fails.
 */
export const rows = [
  {
    name: 'check in process ÷ remark-parse, notes of 6 kB',
    must: 0.25,
    aim: 0.06,
    measure: async ({ notes, runs }) => compareWithRemark(dealt(notes, runs + 1), runs),
  },
  {
    name: 'check in process ÷ remark-parse, one note of 1 MB',
    must: 0.25,
    aim: 0.06,
    measure: async ({ longNotes, runs }) =>
      compareWithRemark(
        longNotes.map(text => [text]),
        runs,
      ),
  },
  {
    name: 'leastwise check ÷ markdownlint-cli2, whole process',
    must: 0.1,
    aim: 0.04,
    measure: async ({ folder, runs }) => compare(checkTime(folder), markdownlintTime(folder), runs),
  },
  {
    name: 'leastwise check ÷ remark-cli with the recommended lint preset, whole process',
    must: 0.12,
    aim: 0.06,
    measure: async ({ folder, runs }) => compare(checkTime(folder), remarkTime(folder), runs),
  },
  {
    name: 'peak memory: leastwise check ÷ markdownlint-cli2',
    must: 0.45,
    aim: 0.3,
    measure: async ({ folder, runs }) =>
      compare(
        () => programMemory([launcher, 'check', folder], [0]),
        () => programMemory(markdownlint(folder), [0, 1]),
        Math.min(runs, 3),
      ),
  },
  {
    name: 'leastwise check of one small note ÷ node -e 0',
    must: 1.8,
    aim: 1.3,
    measure: async ({ small, runs }) =>
      compare(
        () => programTime([launcher, 'check', small], [0]),
        () => programTime(['-e', '0'], [0]),
        4 * runs,
      ),
  },
  {
    name: 'a block with a wrong value ÷ the same block right',
    must: 6,
    aim: 3,
    measure: async ({ runs }) => compareWrongWithRight(4 * runs),
  },
  {
    name: "drawing a block's worked figure (and checking it) ÷ checking the block",
    must: 5,
    aim: 2,
    measure: async ({ runs }) => compareDrawingWithChecking(4 * runs),
  },
  ...cacheRows,
  ...mergingRows,
  ...editingRows,
  ...growthRows,
];

/** Writes the corpus below `folder`; the same seed gives the same notes. */
export async function prepareCorpus(folder, { seed, count, longBlocks, growth, runs }) {
  const notes = Array.from({ length: count }, (_, index) => note(seed + index));
  const longNotes = Array.from({ length: runs + 1 }, (_, index) => longNote(seed + index, longBlocks));
  notes.forEach((text, index) => {
    const shelf = join(folder, 'notes', `shelf-${index >> 6}`);
    mkdirSync(shelf, { recursive: true });
    writeFileSync(join(shelf, `card-${index}.md`), text);
  });
  const small = join(folder, 'small.md');
  writeFileSync(
    small,
    `# A sleeve\n\n${fenced(vernierBlock(seededRandom(seed), 'axle-sleeve')).join('\n')}\n`,
  );
  await expectRight([...notes.slice(0, 100), longNotes[0], readFileSync(small, 'utf8')]);
  return {
    folder: join(folder, 'notes'),
    small,
    notes,
    longNotes,
    longBlocks,
    growth: { seed, ...growth },
    runs,
  };
}

/** The notes in as many parts: each run reads what was not read before, as a run over a bank does. */
function dealt(notes, parts) {
  return Array.from({ length: parts }, (_, part) => notes.filter((_, index) => index % parts === part));
}

/** A ratio about notes that the checker does not understand would mean nothing. */
async function expectRight(texts) {
  const checkNote = await ownCheck();
  for (const text of texts) {
    const { blocks, findings } = checkNote(text);
    const wanted = text.match(/```measurement/g).length;
    if (blocks.length !== wanted || findings.length > 0) {
      throw new Error(
        `the corpus is not right: ${blocks.length} of ${wanted} blocks, ${findings.length} findings, ` +
          `first: ${findings[0]?.rule}: ${findings[0]?.message}\n${text.slice(0, findings[0]?.span.end ?? 0).slice(-400)}`,
      );
    }
  }
}

async function ownCheck() {
  return (await ownLibrary()).checkNote;
}

async function ownLibrary() {
  const bundle = join(root, 'server/dist/index.mjs');
  if (!existsSync(bundle)) throw new Error('server/dist/index.mjs is missing: run `npm run build` first');
  return import(bundle);
}

async function compareWithRemark(parts, runs) {
  const checkNote = await ownCheck();
  const { unified } = await import('unified');
  const { default: remarkParse } = await import('remark-parse');
  const remark = unified().use(remarkParse).freeze();
  return compare(
    run => timeOver(parts[run + 1], checkNote),
    run => timeOver(parts[run + 1], text => remark.parse(text)),
    runs,
  );
}

async function compareWrongWithRight(runs) {
  const checkNote = await ownCheck();
  const random = seededRandom(7);
  const blocks = Array.from({ length: 100 }, (_, index) => vernierBlock(random, `part-${index}`));
  const asNote = block => `${fenced(block).join('\n')}\n`;
  const right = blocks.map(asNote);
  const wrong = blocks.map(block => asNote(withWrongReading(block)));
  for (const text of wrong) {
    const { findings } = checkNote(text);
    if (!findings.some(finding => finding.rule === 'wrong-value'))
      throw new Error(`nothing wrong found in\n${text}`);
  }
  return compare(
    () => timeOver(wrong, checkNote),
    () => timeOver(right, checkNote),
    runs,
  );
}

async function compareDrawingWithChecking(runs) {
  const { checkNote, drawNote } = await ownLibrary();
  const random = seededRandom(11);
  const texts = Array.from(
    { length: 50 },
    (_, index) => `${fenced(vernierBlock(random, `part-${index}`)).join('\n')}\n`,
  );
  for (const text of texts)
    if (drawNote(text, 'worked').length !== 1) throw new Error(`no figure of\n${text}`);
  return compare(
    () => timeOver(texts, text => drawNote(text, 'worked')),
    () => timeOver(texts, checkNote),
    runs,
  );
}

function timeOver(texts, work) {
  return timed(() => {
    for (const text of texts) work(text);
  });
}

function checkTime(folder) {
  return () => programTime([launcher, 'check', folder], [0]);
}

function markdownlint(folder) {
  return [toolPath('markdownlint-cli2', 'markdownlint-cli2'), `${folder}/**/*.md`];
}

function markdownlintTime(folder) {
  const command = markdownlint(folder);
  return () => programTime(command, [0, 1]);
}

function remarkTime(folder) {
  toolPackage('remark-preset-lint-recommended');
  const preset = join(root, 'node_modules/remark-preset-lint-recommended/index.js');
  const command = [toolPath('remark-cli', 'remark'), folder, '--use', preset, '--no-stdout', '--no-config'];
  return () => programTime(command, [0]);
}

function toolPath(name, command) {
  const { bin } = toolPackage(name);
  return join(root, 'node_modules', name, typeof bin === 'string' ? bin : bin[command]);
}

function toolPackage(name) {
  const manifest = join(root, 'node_modules', name, 'package.json');
  if (!existsSync(manifest)) throw new Error(`${name} is not installed: run \`npm ci\` first`);
  return JSON.parse(readFileSync(manifest, 'utf8'));
}
