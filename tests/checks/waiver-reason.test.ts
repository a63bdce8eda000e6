import { expect, it } from 'vitest';
import { checkText } from '../../server/src/checks/check-text.ts';
import { WAIVING_NOTE } from '../support/workshop-notes.ts';

const LINE = 'waive: wrong-value, printed this way in the exercise sheet';

it.each([
  ['waive: wrong-value, printed as $5$ in [3], **see** (a) {b}', 'printed as $5$ in [3], **see** (a) {b}'],
  ['waive: wrong-value, 2*3  mm, as `printed`', '2*3  mm, as `printed`'],
  ['waive: wrong-value, see **sheet#7**', 'see **sheet#7**'],
  // A comment and the dress of the whole line are no part of it.
  ['waive: wrong-value, printed so  # ask again', 'printed so'],
  ['**waive: wrong-value, printed so**', 'printed so'],
  ['`waive: wrong-value, printed so`', 'printed so'],
  ['**waive:** wrong-value, printed **so**', 'printed **so**'],
  ['- waive: wrong-value, printed so', 'printed so'],
])('the reason of %j stands as it was typed', (line, reason) => {
  const { findings } = checkText(WAIVING_NOTE.replace(LINE, line), { waived: true });
  expect(findings.map(({ waived }) => waived)).toEqual([reason]);
});
