import type { Output } from './output.ts';

/** Standard error, for a report that must stand aside because standard output holds something else. */
export function errorOutput(before: () => void): Output {
  return {
    write: text => {
      if (text === '') return undefined;
      before();
      process.stderr.write(text);
      return undefined;
    },
    // Who does not listen there has said so.
    end: async () => null,
  };
}
