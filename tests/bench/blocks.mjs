/**
 * Blocks in which everything agrees. All lengths are whole numbers of hundredths of a millimetre here, so
 * nothing is rounded that is written down.
 */
export function vernierBlock(random, name) {
  // The division of the main scale in hundredths of a millimetre, and how many the vernier has: all least
  // counts are whole hundredths.
  const [division, count] = random.pick([
    [100, 10],
    [100, 20],
    [100, 50],
    [50, 25],
    [50, 10],
  ]);
  const leastCount = division / count;
  // As many places as the least count has.
  const mm = hundredths => millimetres(hundredths, leastCount % 10 === 0 ? 1 : 2);
  const closed = random.whole(1, 4);
  const error = closed * leastCount;
  const main = random.whole(20, 180) * division;
  const coinciding = random.whole(1, count - 1);
  const observed = main + coinciding * leastCount;
  return {
    name,
    term: 'corrected reading',
    value: `${mm(observed - error)} mm`,
    observed,
    leastCount,
    lines: [
      'instrument: vernier calipers',
      `main scale: 1 cm = ${1000 / division} MSD`,
      `vernier scale: ${count} VSD = ${count - 1} MSD`,
      `least count = S - V = ${mm(leastCount)} mm`,
      '',
      `closed: vernier zero right, division ${closed}`,
      `zero error = ${closed} × ${mm(leastCount)} mm = +${mm(error)} mm`,
      `zero correction = -${mm(error)} mm`,
      '',
      `main scale reading: ${mm(main)} mm`,
      `coinciding division: ${coinciding}`,
      `observed reading = ${mm(main)} mm + ${coinciding} × ${mm(leastCount)} mm = ${mm(observed)} mm`,
      `corrected reading = ${mm(observed - error)} mm`,
    ],
  };
}

export function screwBlock(random, name) {
  const [pitch, count] = random.pick([
    [50, 50],
    [100, 100],
  ]);
  const error = random.whole(1, 5);
  const linear = random.whole(4, 30) * pitch;
  const first = random.whole(8, count - 10);
  const rows = [first, first + 2, first + 1];
  const mean = linear + first + 1 - error;
  return {
    name,
    term: 'mean corrected reading',
    value: `${millimetres(mean)} mm`,
    mean,
    lines: [
      'instrument: screw gauge',
      `screw: 5 rotations = ${millimetres(5 * pitch)} mm`,
      `linear scale: 1 mm = ${100 / pitch} LSD`,
      `circular scale: ${count} divisions`,
      `pitch = ${millimetres(pitch)} mm`,
      `least count = pitch / ${count} = 0.01 mm`,
      `closed: circular zero below the line, division ${error}`,
      `zero error = ${error} × 0.01 mm = +${millimetres(error)} mm`,
      '',
      '| LSR | CSR | observed reading | corrected reading |',
      '|-----|-----|------------------|-------------------|',
      ...rows.map(
        turned =>
          `| ${millimetres(linear)} mm | ${turned} | ${millimetres(linear + turned)} mm | ${millimetres(linear + turned - error)} mm |`,
      ),
      `mean corrected reading = ${millimetres(mean)} mm`,
    ],
  };
}

/** The girth of what a screw's block measured; pi times a length to two places is never a tie. */
export function girthBlock(name, screw) {
  return {
    name,
    term: null,
    value: null,
    lines: [
      `D: mean corrected reading of ${screw.name}`,
      `girth c = pi D = ${(Math.PI * (screw.mean / 100)).toFixed(2)} mm`,
    ],
  };
}

/** The same vernier block with an observed reading that no slip explains; what follows from it is left as it was. */
export function withWrongReading(block) {
  const places = block.leastCount % 10 === 0 ? 1 : 2;
  const wrong = millimetres(block.observed + 37 * block.leastCount + 1300, places);
  const right = `= ${millimetres(block.observed, places)} mm`;
  return {
    ...block,
    lines: block.lines.map(line =>
      line.startsWith('observed reading') ? line.replace(right, `= ${wrong} mm`) : line,
    ),
  };
}

export function fenced(block, prefix = '', first = prefix) {
  return [
    `${first}\`\`\`measurement ${block.name}`,
    ...[...block.lines, '```'].map(line => (prefix + line).trimEnd()),
  ];
}

/** Hundredths of a millimetre, in millimetres. */
function millimetres(hundredths, places = 2) {
  return `${Math.floor(hundredths / 100)}.${String(hundredths % 100)
    .padStart(2, '0')
    .slice(0, places)}`;
}
