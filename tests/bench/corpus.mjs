import { fenced, girthBlock, screwBlock, vernierBlock } from './blocks.mjs';
import { seededRandom } from './random.mjs';

const PARTS = [
  'axle-sleeve',
  'bearing-ball',
  'spoke',
  'pivot',
  'mainspring',
  'hub-shell',
  'chain-pin',
  'arbor',
  'pinion',
];

const SENTENCES = [
  'The apprentice closes the jaws on the part and reads the main scale first, then looks for the line of the vernier that stands in line with one of the main scale.',
  'Write down what you see before you work anything out, and write the unit beside every number.',
  'The zero error is found with the jaws closed, and it is taken off every reading, *whichever way the jaws were used*.',
  'With $N$ divisions of the vernier on $N - 1$ of the main scale the least count is $S - V = S/N$, as the [sheet beside the lathe](https://example.org/bench/vernier) says.',
  'A drum with $100$ divisions on a screw of pitch $1\\,\\mathrm{mm}$ shows a hundredth of a millimetre.',
  'See [how to hold the part](https://example.org/bench/holding "with two fingers") and do not press: a **soft** sleeve gives way.',
  'Clean the faces with a dry cloth, close them, and read the zero again when the part is out.',
  'If the reading looks wrong, take it again; a division is easily miscounted when the light comes from the side.',
  'The mean of three readings goes into the repair card, together with $\\pm$ the least count.',
  'Old clocks have pivots that are no longer round, so turn the part by a third and measure again.',
  'The bench has two calipers, one of them with `20` divisions, and a screw gauge that needs oil.',
  'What is left over from turning is kept in the box under the bench, sorted by diameter.',
];

/** The text of one note of about 6 kB: prose with math and links, lists, a table and three blocks. */
export function note(seed) {
  const random = seededRandom(seed);
  const [first, second, third] = [1, 2, 3].map(number => `${random.pick(PARTS)}-${number}`);
  const vernier = vernierBlock(random, first);
  const screw = screwBlock(random, second);
  const blocks = [vernier, screw, seed % 2 === 0 ? girthBlock(third, screw) : vernierBlock(random, third)];
  const sections = blocks.flatMap((block, index) => section(random, block, index, (seed + index) % 6));
  const lines = [`# Repair card ${seed}`, '', ...paragraph(random, 4), ...sections, ...table(random)];
  if (seed % 5 === 0) {
    lines.push(
      '',
      `In short, \`${vernier.term} of ${vernier.name} = ${vernier.value}\`, and that fits the card.`,
    );
  }
  return filledTo(random, lines, 6000);
}

/** One long note with `count` blocks, of about 4 kB each with the prose around it. */
export function longNote(seed, count) {
  const random = seededRandom(seed);
  const cards = Array.from({ length: count }, (_, index) => {
    const name = `${random.pick(PARTS)}-${index}`;
    const block = index % 3 === 0 ? screwBlock(random, name) : vernierBlock(random, name);
    return filledTo(random, section(random, block, index, index % 6), 4200);
  });
  return ['# All repair cards of the year\n', ...cards].join('\n');
}

function section(random, block, index, kind) {
  const heading = [`## ${index + 1}. The ${block.name.replaceAll('-', ' ')}`, '', ...paragraph(random, 3)];
  switch (kind) {
    case 0:
      return [
        ...heading,
        `${index + 1}. Measure it:`,
        '',
        ...fenced(block, '   '),
        '',
        '2. Write it down.',
        '',
      ];
    case 1:
      return [...heading, ...fenced(block, '> '), '', ...list(random)];
    default:
      return [...heading, ...fenced(block), '', ...paragraph(random, 2), ...list(random)];
  }
}

function paragraph(random, sentences) {
  return [Array.from({ length: sentences }, () => random.pick(SENTENCES)).join(' '), ''];
}

function list(random) {
  return [...[1, 2, 3].map(() => `- ${random.pick(SENTENCES)}`), ''];
}

function table(random) {
  const rows = [1, 2, 3, 4].map(
    day => `| ${day} | ${random.pick(PARTS)} | $${random.whole(2, 90)}$ | done |`,
  );
  return [
    '## The week',
    '',
    '| day | part | minutes | state |',
    '|-----|------|---------|-------|',
    ...rows,
    '',
  ];
}

function filledTo(random, lines, length) {
  const all = [...lines, '', '## Notes', ''];
  while (all.join('\n').length < length - 200) {
    all.push(...paragraph(random, 2));
  }
  return `${all.join('\n').trimEnd()}\n`;
}
