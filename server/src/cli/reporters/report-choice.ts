import { coloursFor } from '../colours.ts';
import type { Checkout } from './path-from-root.ts';
import type { Reporter } from './reporter.ts';
import type { Shown } from './shown-findings.ts';

/** Which report is made, and how; plain data, so that another thread can be told. */
export interface ReportChoice extends Shown {
  readonly format: ReportFormat;
  /** For people: whether in colours, and how many columns there are. */
  readonly colour: boolean;
  readonly width: number;
  /** From whose root a host counts the paths of notes; null for none. */
  readonly checkout: Checkout | null;
}

export type ReportFormat = (typeof REPORT_FORMATS)[number];

export const REPORT_FORMATS = ['pretty', 'json', 'sarif', 'junit', 'github'] as const;

/** Makes a reporter. Only the one that is asked for is loaded: a small note must not wait for the others. */
export async function reporterOf(choice: ReportChoice): Promise<Reporter> {
  switch (choice.format) {
    case 'json': {
      const { jsonReporter } = await import('./json.ts');
      return jsonReporter(choice);
    }
    case 'pretty': {
      const { prettyReporter } = await import('./pretty.ts');
      return prettyReporter({ ...choice, colours: await coloursFor(choice.colour) });
    }
    case 'sarif': {
      const { sarifReporter } = await import('./sarif.ts');
      return sarifReporter(choice);
    }
    case 'junit': {
      const { junitReporter } = await import('./junit.ts');
      return junitReporter(choice);
    }
    case 'github': {
      const { githubReporter } = await import('./github.ts');
      return githubReporter({ ...choice, colours: await coloursFor(false) });
    }
  }
}
