import { check } from 'leastwise';

const note = `# The seat post

\`\`\`measurement seat-post
instrument: vernier calipers
main scale: 1 cm = 10 MSD
vernier scale: 20 VSD = 19 MSD
main scale reading: 27 mm
coinciding division: 4
observed reading = 27 mm + 4 × 0.05 mm = 27.02 mm
\`\`\`
`;

const { blocks, findings, summary } = check(note);

for (const { line, column, message } of findings) console.log(`${line}:${column} ${message}`);
for (const { term, shown } of blocks[0].quantities) console.log(`${term}: ${shown}`);
console.log(`errors: ${summary.errors}`);

// Offsets serve programs that change the note.
const [{ start, end, fixes }] = findings;
console.log(`${note.slice(start, end)} -> ${fixes[0].edits[0].newText}`);
