/** A note of the workshop in which everything agrees. */
export const RIGHT_NOTE = `# The sleeve of an axle

\`\`\`measurement axle-sleeve
instrument: vernier calipers
main scale: 1 cm = 20 MSD
vernier scale: 25 VSD = 24 MSD
least count = S - V = 0.5 mm - 0.48 mm = 0.02 mm

closed: vernier zero right, division 3
zero error = 3 × 0.02 mm = +0.06 mm
zero correction = -0.06 mm

main scale reading: 2.45 cm
coinciding division: 17
observed reading = 2.45 cm + 17 × 0.002 cm = 2.484 cm
corrected reading = 2.478 cm
\`\`\`
`;

/** The same note with the observed reading in line 15 wrong by a digit: an error. */
export const WRONG_NOTE = RIGHT_NOTE.replace('= 2.484 cm', '= 2.494 cm');

/** A note with a warning and no error: the pitch is claimed where only a record can stand. */
export const WARNING_NOTE = `\`\`\`measurement bearing-ball
instrument: screw gauge
pitch = 0.5 mm
circular scale: 50 divisions
least count = 0.01 mm
\`\`\`
`;

/** A note whose author waives a finding. */
export const WAIVING_NOTE = `\`\`\`measurement spoke
main scale: 1 cm = 10 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 2.4 cm
coinciding division: 6
waive: wrong-value, printed this way in the exercise sheet
observed reading = 2.47 cm
\`\`\`
`;

/** A note without any block. */
export const PLAIN_NOTE = '# Tools\n\nThe calipers hang beside the lathe.\n';
