import assert from 'node:assert/strict';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { command, inOneLine, openActions, openByName, pointAt, pointAway } from './hands.mjs';
import { NOTE } from './walk.mjs';

/** So many that nobody can have checked them all before somebody else has found the button. */
const MANY = 6000;

/** How long a server may take to come up, in milliseconds. */
const WITHIN = 180_000;

/** What a person sees where not all is well: a class that must not be told, a broken file, a server that dies, a check that is stopped. */
export async function walkInTrouble(page, picture, { notes, group }) {
  await forStudents(page, picture, notes);
  await brokenConfiguration(page, picture, notes);
  await dyingServer(page, picture, group);
  await stoppedCheck(page, picture, notes);
}
walkInTrouble.size = { width: 1280, height: 800 };

async function forStudents(page, picture, notes) {
  mkdirSync(join(notes, 'class'));
  writeFileSync(join(notes, 'class/leastwise.config.json'), '{ "student": true }\n');
  writeFileSync(join(notes, 'class/wheel.md'), NOTE);
  await openByName(page, 'wheel.md');
  const wrong = page.locator('.squiggly-error');
  await wrong.first().waitFor();
  const told = await pointAt(page, wrong.first());
  assert.match(told, /look again/);
  assert.ok(!told.includes('1.27'), `a student is told ${told}`);
  await picture('12-for-students');
  await pointAway(page);
  await page.locator('.view-line', { hasText: '1.28' }).first().click();
  const offered = (await openActions(page)).join(' | ');
  assert.ok(!offered.includes('1.27'), `a student is offered ${offered}`);
  await page.keyboard.press('Escape');
}

async function brokenConfiguration(page, picture, notes) {
  writeFileSync(
    join(notes, 'class/leastwise.config.json'),
    '{\n  "student": true,\n  "roundign": "to-even"\n}\n',
  );
  await openByName(page, 'leastwise.config.json');
  const setting = page.locator('.view-line', { hasText: 'roundign' }).first();
  await page.locator('.squiggly-error').first().waitFor();
  assert.match(await pointAt(page, setting), /there is no setting roundign; rounding is likely meant/);
  await picture('13-a-broken-configuration');
  await pointAway(page);
  await command(page, 'View: Close Editor');
}

async function dyingServer(page, picture, group) {
  await openByName(page, 'wheel.md');
  const toast = text => page.locator('.notification-toast', { hasText: text });
  const [again, alone] = [
    'ended unexpectedly and was started again',
    'ended several times and was left alone',
  ];
  let [server] = await serversOf(group, found => found.length === 1);
  process.kill(server, 'SIGKILL');
  await toast(again).waitFor();
  await picture('14-a-server-that-died');
  for (let end = 2; end <= 5; end += 1) {
    [server] = await serversOf(group, found => found.length === 1 && found[0] !== server);
    process.kill(server, 'SIGKILL');
  }
  await toast(alone).waitFor();
  await picture('15-a-server-left-alone');
  assert.deepEqual(await serversOf(group, found => found.length === 0), []);
  await toast(alone).getByText('Restart the server').click();
  await serversOf(group, found => found.length === 1);
  await command(page, 'Notifications: Show Notifications');
  const all = await page.locator('.notifications-center .notification-list-item').allTextContents();
  assert.equal(all.filter(text => text.includes(again)).length, 1, `said is ${all.join(' | ')}`);
  const foreign = all.filter(text => !text.includes('leastwise'));
  assert.deepEqual(foreign, [], 'said in words that are not ours');
  await command(page, 'Notifications: Clear All Notifications');
  // The new one works: what is typed now is checked.
  await page.locator('.view-line', { hasText: 'corrected reading' }).first().click();
  await page.keyboard.press('End');
  await page.keyboard.type(' = 9 cm');
  await page.locator('.squiggly-error').nth(1).waitFor();
}

async function stoppedCheck(page, picture, notes) {
  mkdirSync(join(notes, 'bank'));
  for (let at = 0; at < MANY; at += 1) writeFileSync(join(notes, `bank/${at}.md`), NOTE);
  const { checked, all, findings } = await stopped(page);
  assert.ok(checked < all, `stopped after ${checked} of ${all}`);
  if (findings > 0) await page.locator('.markers-panel .monaco-list-row').first().waitFor();
  await picture('16-a-stopped-check');
}

/** What is said of a check that was stopped; begun again where all notes were checked before the button was found. */
async function stopped(page) {
  const toast = page.locator('.notification-toast', { hasText: 'Checking the notes of the workspace' });
  const told = page
    .locator('.statusbar-item', { hasText: /Stopped after \d|findings? in \d|Nothing to correct in \d/ })
    .first();
  for (let left = 5; left > 0; left -= 1) {
    await command(page, 'leastwise: Check the Workspace');
    // With a hundred there are findings.
    const begun = toast.filter({ hasText: /[1-9]\d\d+ of 60\d\d/ });
    await Promise.race([begun.waitFor(), told.waitFor()]);
    // It is said in passing, so somebody looks before it can be said.
    const [said] = await Promise.all([
      told.textContent(),
      toast
        .getByText('Cancel', { exact: true })
        .click({ timeout: 5000 })
        .catch(() => {}),
    ]);
    await toast.waitFor({ state: 'detached' });
    const counts = /Stopped after (\d+) of (\d+) notes, findings so far: (\d+)/.exec(inOneLine(said));
    if (counts !== null) {
      const [checked, all, findings] = counts.slice(1).map(Number);
      return { checked, all, findings };
    }
    await told.waitFor({ state: 'hidden' });
  }
  throw new Error('Every check of the workspace was done before it could be stopped');
}

/** The processes of the language server among those of the editor, as soon as they fit. */
async function serversOf(group, fits) {
  for (const end = Date.now() + WITHIN; ; ) {
    const found = readdirSync('/proc')
      .filter(name => /^\d+$/.test(name) && isServerOf(name, group))
      .map(Number);
    if (fits(found)) return found;
    if (Date.now() > end) throw new Error(`The servers are still ${JSON.stringify(found)}`);
    await new Promise(resolve => setTimeout(resolve, 50));
  }
}

function isServerOf(process, group) {
  try {
    const behindName = readFileSync(`/proc/${process}/stat`, 'utf8').replace(/^.*\) /s, '');
    return (
      Number(behindName.split(' ')[2]) === group &&
      readFileSync(`/proc/${process}/cmdline`, 'utf8').includes('server.cjs')
    );
  } catch {
    // It has ended since.
    return false;
  }
}
