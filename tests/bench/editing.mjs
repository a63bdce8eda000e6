import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { longNote } from './corpus.mjs';
import { compare, median, programTime } from './measure.mjs';
import { seededRandom } from './random.mjs';

const launcher = join(import.meta.dirname, '../../server/bin/leastwise.js');
const URI = 'file:///bench/cards.md';

/** What an editor waits for, each beside a full remark-parse of the same note, or beside the start of Node. */
export const editingRows = [
  {
    name: 'keystroke in the 1 MB note to diagnostics, p99 ÷ remark-parse of it, p50',
    must: 1 / 100,
    aim: 1 / 400,
    measure: async ({ longBlocks, runs }) =>
      besideRemark(longNote(1, longBlocks), runs, editor => keystrokes(editor, 50)),
  },
  {
    name: 'worst structural edit in the 1 MB note ÷ the same',
    must: 1 / 2,
    aim: 1 / 25,
    measure: async ({ longBlocks, runs }) => besideRemark(longNote(2, longBlocks), runs, structuralEdits),
  },
  {
    name: 'opening the 1 MB note ÷ the same',
    must: 1 / 2,
    aim: 1 / 10,
    measure: async ({ longBlocks, runs }) =>
      besideRemark(longNote(3, longBlocks), runs, async (editor, text) => {
        editor.notify('textDocument/didClose', { textDocument: { uri: URI } });
        return [await opened(editor, text)];
      }),
  },
  {
    name: 'server start to initialize answered ÷ node -e 0',
    must: 2,
    aim: 1.5,
    measure: async ({ runs }) => {
      const starts = [];
      for (let run = 0; run <= 4 * runs; run++) starts.push(await startTime());
      return compare(
        run => starts[run + 1],
        () => programTime(['-e', '0'], [0]),
        4 * runs,
      );
    },
  },
];

/**
 * Edits in a server of its own, and parses the note in between, A B A B …: the 99th of a hundred of our times beside
 * the median of remark's. `work` gives the milliseconds that each edit took.
 */
async function besideRemark(text, runs, work) {
  const { unified } = await import('unified');
  const { default: remarkParse } = await import('remark-parse');
  const remark = unified().use(remarkParse).freeze();
  const editor = await startedEditor();
  try {
    await opened(editor, text);
    await work(editor, text);
    const ours = [];
    const theirs = [];
    for (let run = 0; run < runs; run++) {
      ours.push(...(await work(editor, text)));
      const start = performance.now();
      remark.parse(text);
      theirs.push(performance.now() - start);
    }
    ours.sort((a, b) => a - b);
    const worst = ours[Math.min(ours.length - 1, Math.floor(ours.length * 0.99))];
    return { ratio: worst / median(theirs), ours: worst, theirs: median(theirs), median: median(ours) };
  } finally {
    await editor.end();
  }
}

/** Digits and letters typed all over the note, one at a time, and taken away again; other ones every time. */
async function keystrokes(editor, count) {
  const random = seededRandom(count + editor.version);
  const times = [];
  for (let key = 0; key < count; key++) {
    const line = random.whole(0, editor.lines - 1);
    const at = { line, character: 0 };
    times.push(
      await diagnosed(editor, [{ range: { start: at, end: at }, text: random.pick(['7', 'k', '-']) }]),
    );
    times.push(await diagnosed(editor, [{ range: { start: at, end: { line, character: 1 } }, text: '' }]));
  }
  return times;
}

/** A fence and a comment opened at the top of the note, which swallow what stands below, and taken away again. */
async function structuralEdits(editor) {
  const times = [];
  const top = { line: 0, character: 0 };
  for (const typed of ['```\n', '<!--\n', '```measurement first\n']) {
    times.push(await diagnosed(editor, [{ range: { start: top, end: top }, text: typed }]));
    times.push(
      await diagnosed(editor, [{ range: { start: top, end: { line: 1, character: 0 } }, text: '' }]),
    );
  }
  return times;
}

function opened(editor, text) {
  editor.lines = text.split('\n').length;
  return timedAsync(() => {
    editor.version = 1;
    editor.notify('textDocument/didOpen', {
      textDocument: { uri: URI, languageId: 'markdown', version: 1, text },
    });
    return editor.request('textDocument/diagnostic', { textDocument: { uri: URI } });
  });
}

function diagnosed(editor, contentChanges) {
  return timedAsync(() => {
    editor.version += 1;
    editor.notify('textDocument/didChange', {
      textDocument: { uri: URI, version: editor.version },
      contentChanges,
    });
    return editor.request('textDocument/diagnostic', { textDocument: { uri: URI } });
  });
}

async function timedAsync(work) {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

async function startTime() {
  const start = performance.now();
  const editor = await startedEditor();
  const time = performance.now() - start;
  await editor.end();
  return time;
}

/** The server as an editor starts it, with what an editor sends and waits for. */
async function startedEditor() {
  const { createProtocolConnection, StreamMessageReader, StreamMessageWriter } = await import(
    'vscode-languageserver/node'
  );
  const server = spawn(process.execPath, [launcher, 'serve', '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise(resolve => server.once('exit', resolve));
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: { textDocument: { diagnostic: {} } },
  });
  connection.sendNotification('initialized', {});
  return {
    version: 0,
    lines: 0,
    request: (method, params) => connection.sendRequest(method, params),
    notify: (method, params) => connection.sendNotification(method, params),
    async end() {
      await connection.sendRequest('shutdown');
      connection.sendNotification('exit');
      await ended;
      connection.dispose();
    },
  };
}
