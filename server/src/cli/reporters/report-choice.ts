import { coloursFor } from '../colours.ts';
import type { Reporter } from './reporter.ts';

/** Which report is made, and how; plain data, so that another thread can be told. */
export interface ReportChoice {
  readonly format: ReportFormat;
  /** Whether waived findings are listed as well. */
  readonly waived: boolean;
  /** For people: whether in colours, and how many columns there are. */
  readonly colour: boolean;
  readonly width: number;
}

export type ReportFormat = (typeof REPORT_FORMATS)[number];

export const REPORT_FORMATS = ['pretty', 'json'] as const;

/** Makes a reporter. Only the one that is asked for is loaded: a small note must not wait for the others. */
export async function reporterOf({ format, waived, colour, width }: ReportChoice): Promise<Reporter> {
  switch (format) {
    case 'json': {
      const { jsonReporter } = await import('./json.ts');
      return jsonReporter({ waived });
    }
    case 'pretty': {
      const { prettyReporter } = await import('./pretty.ts');
      return prettyReporter({ colours: await coloursFor(colour), width, waived });
    }
  }
}
