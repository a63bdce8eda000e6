/** A note about one setting of the workshop's old calipers, in which everything is right. */
export const AXLE = `# The axle of a hub

The old pair divides a centimetre into ten.

\`\`\`measurement axle
instrument: vernier calipers
main scale: 1 cm = 10 MSD
vernier scale: 10 VSD = 9 MSD
least count = 0.01 cm
closed: vernier zero right, division 4
zero error = +0.04 cm
main scale reading: 1.2 cm
coinciding division: 7
observed reading = 1.27 cm
corrected reading = 1.23 cm
\`\`\`

The axle fits.
`;

/** The same setting with nothing worked out yet. */
export const AXLE_OBSERVED = AXLE.split('\n')
  .filter(line => !/^(?:least count|zero error|observed|corrected)/.test(line))
  .join('\n');

/** Typed in a hurry: each line is surely meant otherwise. */
export const HURRIED = `\`\`\`measurement cone
instrument: vernier calipers
main scale: 1 cm = 10 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 1,2 cm
VSR = 7
observed reading = 1.27 cm
\`\`\`
`;
