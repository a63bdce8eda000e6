import { createHash } from 'node:crypto';
import { asJson } from '../reporters/json.ts';
import type { ReportFormat } from '../reporters/report-choice.ts';
import type { Reporter } from '../reporters/reporter.ts';
import type { ShareFacts } from './share-facts.ts';

/** How a share's JSON document ends: a digest of all that stands before it. */
export const SEAL_FIELD = ',"seal":"';
export const SEAL_LENGTH = SEAL_FIELD.length + 64 + '"}}\n'.length;

/**
 * A report that says of which share of a bank it is. The JSON document says it in a last field `share`, and is sealed with a
 * digest, so that one which was cut off or changed on its way is not taken for whole.
 */
export function sealedReporter(reporter: Reporter, format: ReportFormat, facts: () => ShareFacts): Reporter {
  switch (format) {
    case 'json':
      return sealedDocument(reporter, facts);
    case 'pretty':
    case 'github':
      return {
        ...reporter,
        closing: summary => `${reporter.closing(summary)}${shareLine(facts())}\n`,
      };
    // A host gathers these itself, whichever shares they come from.
    case 'sarif':
    case 'junit':
      return reporter;
  }
}

function shareLine({ index, of }: ShareFacts): string {
  return `this is share ${index} of ${of} of the bank`;
}

function sealedDocument(reporter: Reporter, facts: () => ShareFacts): Reporter {
  const digest = createHash('sha256').update(reporter.opening);
  return {
    ...reporter,
    add: piece => {
      const text = reporter.add(piece);
      digest.update(text);
      return text;
    },
    closing: summary => {
      const whole = reporter.closing(summary);
      const open = `${whole.slice(0, whole.lastIndexOf('}'))},"share":${asJson(facts()).slice(0, -1)}`;
      return `${open}${SEAL_FIELD}${digest.update(open).digest('hex')}"}}\n`;
    },
  };
}
