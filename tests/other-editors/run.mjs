// Sets other editors up as README.md says and has them find a slip in a note and mend it, over the real server.
//
//     node tests/other-editors/run.mjs [FILE]     FILE: where the set-ups stand; README.md where nothing else is said
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';

const root = new URL('../..', import.meta.url).pathname;
const readme = readFileSync(process.argv[2] ?? join(root, 'README.md'), 'utf8');

/** How long an editor may take, in milliseconds. */
const DEADLINE = 60_000;

const NOTE = `# A sleeve

\`\`\`measurement sleeve
main scale: 1 cm = 10 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 2.4 cm
coinciding division: 6
observed reading = 2.47 cm
\`\`\`
`;
const MENDED = NOTE.replace('2.47', '2.46');

const EDITORS = [
  {
    name: 'Neovim',
    command: 'nvim',
    language: 'lua',
    file: 'init.lua',
    args: setUp => ['--headless', '--noplugin', '-u', setUp, '-S', join(here(), 'neovim.lua'), 'note.md'],
  },
  {
    name: 'Emacs',
    command: 'emacs',
    language: 'elisp',
    file: 'init.el',
    args: setUp => ['--batch', '--no-init-file', '--load', join(here(), 'emacs.el'), setUp, 'note.md'],
  },
];

execFileSync(process.execPath, [join(root, 'server/build.mjs')], { stdio: 'inherit' });
let failed = 0;
for (const editor of EDITORS) {
  const fault = faultOf(editor);
  console.log(fault === null ? `${editor.name}: shows the slip and mends it` : `${editor.name}: ${fault}`);
  if (fault !== null) failed += 1;
}
process.exit(failed === 0 ? 0 : 1);

/** What went wrong; null where the editor did what it should. */
function faultOf({ command, language, file, args }) {
  const setUp = readme.match(new RegExp(`^\`\`\`${language}\n([^]*?leastwise[^]*?)^\`\`\``, 'm'))?.[1];
  if (setUp === undefined) return `no \`\`\`${language} block tells how to set it up`;
  const folder = mkdtempSync(join(tmpdir(), 'leastwise-editor-'));
  try {
    const bin = join(folder, 'leastwise');
    writeFileSync(
      bin,
      `#!/bin/sh\nexec '${process.execPath}' '${join(root, 'server/bin/leastwise.js')}' "$@"\n`,
    );
    chmodSync(bin, 0o755);
    writeFileSync(join(folder, file), setUp);
    writeFileSync(join(folder, 'note.md'), NOTE);
    const run = spawnSync(command, args(join(folder, file)), {
      cwd: folder,
      encoding: 'utf8',
      timeout: DEADLINE,
      env: { ...process.env, HOME: folder, PATH: folder + delimiter + process.env.PATH },
    });
    if (run.error?.code === 'ENOENT') return `${command} is not installed`;
    const said = `${run.stdout}\n${run.stderr}`.trim();
    if (run.error !== undefined || run.status !== 0) return `ended with ${run.status ?? run.signal}\n${said}`;
    const found = existsSync(join(folder, 'found')) ? readFileSync(join(folder, 'found'), 'utf8') : '';
    if (!/^8 .*2\.47 cm.*2\.46 cm/m.test(found))
      return `shows this, and not the slip of line 8: ${found}\n${said}`;
    const note = readFileSync(join(folder, 'note.md'), 'utf8');
    return note === MENDED ? null : `makes this of the note:\n${note}\n${said}`;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function here() {
  return join(root, 'tests/other-editors');
}
