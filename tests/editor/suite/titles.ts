/** What the actions are called, as far as these tests choose one. */
export const TITLES = {
  write: (value: string) => `Write ${value}`,
  chain: 'Show the steps in this line',
  lines: 'Write out all steps of this block',
  below: 'Insert the worked solution below the block',
  belowByScales: 'Insert the worked solution below the block, by the scales themselves',
  renew: 'Renew the working',
  fixAllKind: 'source.fixAll.leastwise',
} as const;
