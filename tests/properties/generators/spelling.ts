import { chance, type Draw, pick, whole } from './draw.ts';

/** The legal ways to write each term of a claim or a record (the language's own list of terms and abbreviations). */
const SPELLINGS = {
  'least count': [
    'least count',
    'LC',
    'Least Count',
    'L.C.',
    'L. C.',
    'Least count (LC)',
    'least count (L.C.)',
  ],
  'main scale reading': ['main scale reading', 'MSR', 'M.S.R.', 'Main scale reading (MSR)'],
  'coinciding division': ['coinciding division', 'vernier coincidence', 'VC', 'V.C.', 'n'],
  'vernier scale reading': ['vernier scale reading', 'VSR', 'V.S.R.'],
  'zero error': ['zero error', 'ZE', 'Z.E.', 'Zero Error', 'zero error (ZE)', 'index error'],
  'zero correction': ['zero correction', 'ZC', 'Z.C.', 'Zero correction'],
  'observed reading': [
    'observed reading',
    'reading',
    'Observed reading',
    'total reading',
    'measured reading',
    'obs reading',
  ],
  'corrected reading': [
    'corrected reading',
    'true reading',
    'Corrected reading',
    'correct reading',
    'actual reading',
  ],
  'linear scale reading': [
    'linear scale reading',
    'LSR',
    'L.S.R.',
    'PSR',
    'pitch scale reading',
    'sleeve reading',
  ],
  'circular scale reading': ['circular scale reading', 'CSR', 'C.S.R.', 'HSR', 'thimble reading'],
  'mean corrected reading': ['mean corrected reading', 'Mean corrected reading', 'average corrected reading'],
  pitch: ['pitch', 'Pitch'],
} as const;

export type SpelledTerm = keyof typeof SPELLINGS;

export function spellTerm(draw: Draw, term: SpelledTerm): string {
  return pick(draw, SPELLINGS[term]);
}

/** A claim's line or lines: the links in order, the signs of the trade at random, the chain broken over lines at times. */
export function claim(draw: Draw, left: string, links: readonly string[]): string[] {
  const worded = links.map(link =>
    whole(draw, 0, 5) === 5 && !link.includes('%') ? inMath(link) : withSigns(draw, link),
  );
  const lead = whole(draw, 0, 4) === 4 ? pick(draw, ['so ', 'hence ', '∴ ', '=> ', '- ', '* ']) : '';
  const [first, ...rest] = worded;
  if (rest.length > 0 && whole(draw, 0, 4) === 4) {
    return [`${lead}${left} = ${first}`, ...rest.map(link => `    = ${link}`)];
  }
  const comment = whole(draw, 0, 7) === 7 ? '   # checked twice' : '';
  const about = whole(draw, 0, 9) === 9 ? '≈' : '=';
  return [`${lead}${left} ${rest.length === 0 ? about : '='} ${worded.join(' = ')}${comment}`];
}

/** A record's line, as a plain line or as one of a list. */
export function record(draw: Draw, left: string, value: string): string {
  const bullet = whole(draw, 0, 5) === 5 ? '- ' : '';
  return `${bullet}${left}${chance(draw) ? ': ' : ' : '}${value}`;
}

function withSigns(draw: Draw, link: string): string {
  const plain = pick(draw, ['×', '*', '·']);
  const between = pick(draw, [plain, 'x']);
  const signed = link.replace(/(?<=\d) × (?=\d)/g, ` ${between} `).replace(/ × /g, ` ${plain} `);
  return chance(draw) ? signed : signed.replace(/(?<=^|\s|\()-(?=[\s\d(])/g, '−');
}

/** `2.45 cm + 17 × 0.002 cm` in the dress of a typeset page. */
function inMath(link: string): string {
  const units = link.replace(/(\d) (mm|cm|in|arcmin)\b/g, '$1\\,\\text{$2}');
  return `$${units.replace(/×/g, '\\times').replace(/\bpi\b/g, '\\pi')}$`;
}
