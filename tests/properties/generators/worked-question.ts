import { chance, type Draw, pick, shuffled, whole } from './draw.ts';
import { fraction, minus, plus, times } from './fraction.ts';
import { claim } from './spelling.ts';
import { exactly, type VernierSetting } from './worked-setting.ts';
import type { WorkedBlock } from './worked-vernier.ts';

const LETTERS = ['A', 'B', 'C', 'D'] as const;

/** A question on a worked block with four choices, one of them right, and the key. */
export function drawWorkedQuestion(
  draw: Draw,
  name: string,
  from: WorkedBlock,
  setting: VernierSetting,
): string[] {
  const off = [1, 2, 3].map(count => {
    const shift = times(fraction(count * pick(draw, [2, 3])), from.leastCount);
    return chance(draw) ? plus(from.corrected, shift) : minus(from.corrected, shift);
  });
  const distinct = off.filter(
    (value, index) => off.findIndex(other => other.top * value.bottom === value.top * other.bottom) === index,
  );
  const choices = shuffled(draw, [from.corrected, ...distinct]);
  const key = choices.indexOf(from.corrected);
  const texts = choices.map(value => exactly(value, setting.unit, setting.leastCount));
  const option = pick(draw, [
    (letter: string, value: string) => `option ${letter}: ${value}`,
    (letter: string, value: string) => `(${letter.toLowerCase()}) ${value}`,
    (letter: string, value: string) => `${letter}. ${value}`,
  ]);
  const letter = LETTERS[key]!;
  const answers = [
    `answer = ${letter}`,
    `Ans: (${letter.toLowerCase()})`,
    `Answer: ${letter}`,
    `correct option = ${letter}`,
  ];
  return [
    `\`\`\`measurement ${name}`,
    `uses: ${from.name}`,
    'find: corrected reading',
    ...texts.map((value, index) => option(LETTERS[index]!, value)),
    pick(draw, [...answers, `answer = ${texts[key]}`]),
    '```',
  ];
}

/** A vernier in letters: its least count is w over the number of its divisions. */
export function drawWorkedLetters(draw: Draw, name: string): string[] {
  const many = whole(draw, 1, 9);
  const lines = many === 1 ? 'k' : `${many}k`;
  const spans = pick(draw, [`(${lines} - 1)`, `(${lines} + 1)`]);
  const short = spans.includes('-');
  return [
    `\`\`\`measurement ${name}`,
    'w: any length',
    'k: any whole number',
    'main scale: 1 MSD = w',
    `vernier scale: ${lines} VSD = ${spans} MSD`,
    ...claim(draw, 'least count', [
      ...(chance(draw) ? [short ? 'S - V' : 'V - S'] : []),
      many === 1 ? 'w/k' : `w/(${many}k)`,
    ]),
    '```',
  ];
}

/** The same value again in the prose, where a reader meets it. */
export function proseClaim(from: WorkedBlock): string {
  return `The part measures \`${from.term} of ${from.name} = ${from.shown}\` on our bench.`;
}
