import type * as vscode from 'vscode';
import { AXLE, AXLE_OBSERVED } from './bench-notes.ts';
import { apply, make, offeredAt } from './code-actions.ts';
import type { EditorTest } from './editor-test.ts';
import { equal, holds } from './equal.ts';
import { findingShown, presentFindings } from './findings.ts';
import { openNote } from './open-note.ts';
import { TITLES } from './titles.ts';
import { placeOf, typeOver } from './typing.ts';
import { until } from './until.ts';

/** The whole solution, one key away. */
export const WORKINGS: readonly EditorTest[] = [
  {
    name: 'The working of a claim is put into its own line',
    async run() {
      const editor = await openNote(AXLE);
      await apply(editor, placeOf(editor, 'observed reading = 1.27 cm'), TITLES.chain);
      const line = lineWith(editor, 'observed reading');
      holds(/^observed reading = .*1\.2 cm \+ 7 × 0\.01 cm = 1\.27 cm$/.test(line), `the line is ${line}`);
      equal(await presentFindings(editor), [], 'findings after the insertion');
    },
  },
  {
    name: 'From bare observations to the corrected reading in one step',
    async run() {
      const editor = await openNote(AXLE_OBSERVED);
      equal(await presentFindings(editor), [], 'findings before the insertion');
      await apply(editor, placeOf(editor, 'coinciding division'), TITLES.lines);
      for (const claim of [
        /^least count = .*0\.01 cm$/m,
        /^zero error = .*0\.04 cm$/m,
        /^corrected reading = .*1\.23 cm$/m,
      ])
        holds(claim.test(editor.document.getText()), `${claim} is not in\n${editor.document.getText()}`);
      equal(await presentFindings(editor), [], 'findings after the insertion');
    },
  },
  {
    name: 'The worked solution stands below the block, and is renewed when a record changes',
    async run() {
      const editor = await openNote(AXLE);
      await apply(editor, placeOf(editor, 'corrected reading = 1.23 cm'), TITLES.below);
      const text = editor.document.getText();
      const opening = text.indexOf('<!-- working: axle ');
      holds(opening > text.lastIndexOf('```'), `the working does not stand below the block\n${text}`);
      holds(text.indexOf('<!-- end working -->') > opening, `the working does not end\n${text}`);
      holds(
        text.indexOf('The axle fits.') > text.indexOf('<!-- end working -->'),
        'it stands before the prose',
      );
      equal(await presentFindings(editor), [], 'findings after the insertion');

      await typeOver(editor, 'coinciding division: 7', 'coinciding division: 8');
      const { diagnostic } = await findingShown(
        editor.document,
        'the working is stale',
        ({ rule }) => rule === 'stale-working',
      );
      await apply(editor, diagnostic.range, TITLES.renew);
      const left = await presentFindings(editor);
      equal(
        left.filter(({ rule }) => rule === 'stale-working').map(({ message }) => message),
        [],
        'findings about the renewed working',
      );
      const [, renewed = ''] =
        /<!-- working: axle [\s\S]*?-->([\s\S]*)<!-- end working -->/.exec(editor.document.getText()) ?? [];
      holds(renewed.includes('1.24') && !renewed.includes('1.23'), `renewed as\n${renewed}`);
    },
  },
  {
    name: 'Nothing is written over what was typed while a working was made',
    async run() {
      const editor = await openNote(AXLE);
      const place = placeOf(editor, 'corrected reading = 1.23 cm');
      const offered = await until(
        'the working is on offer',
        () => offeredAt(editor, place),
        actions => actions.some(({ title }) => title === TITLES.below),
      );
      await typeOver(editor, 'The old pair', 'The very old pair');
      const typed = editor.document.getText();
      for (const action of offered.filter(({ title }) => title === TITLES.below))
        equal(await make(action), false, 'whether it was made');
      equal(editor.document.getText(), typed, 'the note as typed');
    },
  },
];

function lineWith({ document }: vscode.TextEditor, text: string): string {
  return (
    document
      .getText()
      .split(/\r?\n/)
      .find(line => line.includes(text)) ?? ''
  );
}
