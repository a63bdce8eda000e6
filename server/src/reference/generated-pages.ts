import { INSTRUMENT_ENTRIES, RULE_ENTRIES, SLIP_ENTRIES, TERM_ENTRIES } from './entries.ts';
import { pageFigures } from './page-figures.ts';
import { referencePages } from './pages.ts';

/** All pages of the reference, with their figures, from the declarations as they are now; the language page is written by hand and handed in. */
export function generatedPages(language: string): ReadonlyMap<string, string> {
  return referencePages({
    rules: RULE_ENTRIES,
    slips: SLIP_ENTRIES,
    terms: TERM_ENTRIES,
    instruments: INSTRUMENT_ENTRIES,
    language,
    figures: pageFigures(RULE_ENTRIES, SLIP_ENTRIES),
  });
}
