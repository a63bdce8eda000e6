import type { Lack } from '../language/answer.ts';
import type { Claim, Measurement, Subject } from '../language/measurement.ts';
import type { Fix } from '../language/problem.ts';
import type { Span } from '../language/syntax.ts';
import { runTogether } from '../language/units-together.ts';
import { claimedElsewhere, claimedElsewhereIn, type SaidElsewhere } from './claimed-elsewhere.ts';
import type { Finding } from './finding.ts';
import { claimFinding, claimName, findingAt, problemFindings } from './finding-from.ts';
import type { NoteCheck } from './note-check.ts';
import { readingLacks, recordLacks } from './record-lacks.ts';
import type { Rule } from './rule.ts';
import { troubleText } from './trouble-text.ts';
import type { Verdict } from './verdict.ts';

/** What is asked, claimed or recorded and cannot be worked out, each said once, where it stands. */
export function undeterminedFindings(rule: Rule, note: NoteCheck): readonly Finding[] {
  const findings: Finding[] = [];
  const said = new Set<string>();
  const places = new Set<string>();
  for (const verdict of note.verdicts) {
    if (verdict.kind !== 'lack') continue;
    const message = messageOf(verdict.lack);
    if (message === null || verdict.claim.mended) continue;
    const span =
      verdict.lack.kind === 'unknown-name' || verdict.lack.kind === 'trouble'
        ? (verdict.lack.span ?? verdict.span)
        : verdict.span;
    said.add(`${verdict.block}:${message}`);
    // What several claims rest on is said once, where it stands.
    const place = `${span.start}:${verdict.lack.kind}:${message}`;
    if (places.has(place)) continue;
    places.add(place);
    const own =
      unclearQuantity(note, verdict) ??
      fromUsedBlock(note, verdict) ??
      unitForName(note, verdict) ??
      subscriptOtherwise(note, verdict, span) ??
      lettersTogether(note, verdict, span) ??
      unitsTogether(note, verdict);
    findings.push(claimFinding(rule, note, { ...verdict, span }, own ?? { message }));
  }
  for (const { measurement, span, lack } of recordLacks(note)) {
    const message = messageOf(lack);
    if (message !== null) findings.push(findingAt(rule, measurement, span, { message }));
  }
  // A reading that lacks something is said once more only where no claim has said it.
  for (const { measurement, span, lack, row } of readingLacks(note)) {
    const message = messageOf(lack);
    const block = note.measurements.indexOf(measurement);
    if (message === null || said.has(`${block}:${message}`) || isIdle(note, block)) continue;
    said.add(`${block}:${message}`);
    findings.push(findingAt(rule, measurement, span, { message, row, term: 'observed reading' }));
  }
  for (const [block, { question }] of note.measurements.entries()) {
    const facts = note.facts.block(block);
    if (facts === undefined) continue;
    if (question.find === null) {
      const asked = question.answer ?? question.options[question.options.length - 1];
      if (asked !== undefined)
        findings.push(
          findingAt(rule, facts.measurement, asked.valueSpan, {
            message:
              'nothing in this block says what is asked, so the choices and the key cannot be checked: record it (`find: …`)',
          }),
        );
      continue;
    }
    const answer = facts.value(question.find.subject);
    const message = answer.ok ? null : messageOf(answer.lack);
    const { subject, text, span } = question.find;
    const name = note.text.lastIndexOf(text, span.end - text.length);
    const place = name < span.start ? null : { start: name, end: name + text.length };
    const away = claimedElsewhere(note, facts.measurement, subject, text, place);
    if (message !== null && !said.has(`${block}:${message}`))
      findings.push(findingAt(rule, facts.measurement, span, away ?? { message }));
  }
  return [...problemFindings(rule, note), ...findings];
}

/** A block whose claims and question need no reading, as a base for other blocks, may leave its readings incomplete. */
function isIdle(note: NoteCheck, block: number): boolean {
  const measurement = note.measurements[block];
  if (measurement === undefined) return true;
  const { claims, question, subjects } = measurement;
  if (claims.length === 0 && question.find === null) return true;
  return ![...subjects.values(), ...(question.find === null ? [] : [question.find.subject])].some(
    needsReading,
  );
}

function needsReading(subject: Subject): boolean {
  if (subject.kind === 'statistic') return needsReading(subject.of);
  return subject.kind === 'term' && FROM_READINGS.has(subject.term);
}

const FROM_READINGS: ReadonlySet<string> = new Set([
  'observed reading',
  'corrected reading',
  'vernier scale reading',
  'mean observed reading',
  'mean corrected reading',
  'mean absolute error',
  'standard deviation',
]);

function messageOf(lack: Lack): string | null {
  switch (lack.kind) {
    case 'missing':
      return lack.message;
    case 'unknown-name':
      return `${lack.word} stands for nothing in this block: record it (\`${lack.word}: …\`) or write the name that is meant`;
    case 'trouble':
      return lack.trouble.kind === 'mismatch' || lack.trouble.kind === 'too-large'
        ? null
        : troubleText(lack.trouble);
    case 'impossible':
    case 'ambiguous':
    case 'circular':
    case 'two-readings':
    case 'limit':
    case 'reported':
      return null;
  }
}

/** `d = 7.42 cm` beside readings: the corrected (or observed) reading is meant, and gets the name. */
function unclearQuantity(
  note: NoteCheck,
  verdict: Verdict,
): { message: string; fixes: readonly Fix[] } | null {
  const { claim } = verdict;
  const facts = note.facts.block(verdict.block);
  if (
    claim.subject.kind !== 'own' ||
    facts === undefined ||
    verdict.kind !== 'lack' ||
    verdict.lack.kind !== 'missing' ||
    claim.links.length !== 1
  )
    return null;
  const hasRows = facts.measurement.rows.length > 0;
  // Labelled rows are different settings, not repeated readings of one thing.
  if (facts.measurement.rows.some(row => row.label !== null)) return null;
  const candidates = hasRows
    ? (['mean corrected reading', 'mean observed reading'] as const)
    : (['corrected reading', 'observed reading'] as const);
  // `observed altitude` says which of the two it is.
  const isObserved = /\b(?:observed|measured|apparent)\b/i.test(claim.subjectText);
  for (const term of isObserved ? candidates.slice(1) : candidates) {
    if (!facts.term(term).ok) continue;
    return {
      message: `nothing in this block says what ${claimName(note, claim)} is; beside readings the ${term} is likely meant`,
      fixes: [
        {
          title: `Write ${term} ${symbolText(claim)}`.trim(),
          edits: [{ span: claim.subjectSpan, newText: `${term} ${symbolText(claim)}`.trim() }],
          sure: true,
        },
      ],
    };
  }
  return null;
}

/** A link with the name of what the used block only works out. */
function fromUsedBlock(note: NoteCheck, verdict: Verdict): SaidElsewhere | null {
  const measurement = note.measurements[verdict.block];
  const content = verdict.claim.links.find(({ span }) => span.start === verdict.span.start)?.content;
  if (measurement === undefined || content?.kind !== 'stated' || verdict.claim.mended) return null;
  return claimedElsewhereIn(note, measurement, content.stated.spans);
}

/** `w = 2 m` with a mass m: behind a number m is the metre, and nothing says what w is. */
function unitForName(note: NoteCheck, verdict: Verdict): { message: string; fixes: readonly Fix[] } | null {
  const { claim } = verdict;
  const content = claim.links[0]?.content;
  if (claim.subject.kind !== 'own' || content?.kind !== 'stated' || !content.stated.isValue) return null;
  const { text, span } = content.stated;
  const [, number, rest] = /^([\d.]+|\(?1\/2\)?) ?(\p{L}.*)$/u.exec(text) ?? [];
  if (number === undefined || rest === undefined) return null;
  const words = rest.match(/\p{L}+/gu) ?? [];
  const { own, claims } = note.measurements[verdict.block] ?? NOTHING;
  const isOwn = (word: string): boolean =>
    own.has(word) || claims.some(({ subject }) => subject.kind === 'own' && subject.name === word);
  if (!words.every(isOwn)) return null;
  const product = `${number} × ${rest}`;
  const what = words.length === 1 ? `the quantity ${rest}` : `the quantities ${rest}`;
  return {
    message: `${text} is a value with the unit ${rest} here; for ${number} times ${what} write ${product}`,
    fixes: claim.mended
      ? []
      : [{ title: `Write ${product}`, edits: [{ span, newText: product }], sure: false }],
  };
}

const NOTHING: Pick<Measurement, 'own' | 'claims'> = { own: new Map(), claims: [] };

/** `V = IR`: letters that stand together are one name; where each is a quantity of the block, spaces make a product. */
function lettersTogether(
  note: NoteCheck,
  verdict: Verdict,
  span: Span,
): { message: string; fixes: readonly Fix[] } | null {
  const lack = unknownName(verdict);
  const measurement = note.measurements[verdict.block];
  if (lack === null || measurement === undefined) return null;
  const letters = [...lack.word];
  const own = ownNames(measurement);
  const isKnown = (letter: string): boolean => own.has(letter) || measurement.symbols.has(letter);
  if (letters.length < 2 || letters.length > 6 || !letters.every(isKnown)) return null;
  const product = letters.join(' ');
  return {
    message: `${lack.word} is one name, which stands for nothing in this block; for the product of ${letters.slice(0, -1).join(', ')} and ${letters.at(-1)} write ${product}`,
    fixes: [{ title: `Write ${product}`, edits: [{ span, newText: product }], sure: false }],
  };
}

/** `x_3` beside a recorded x3: the same symbol in another spelling. */
function subscriptOtherwise(
  note: NoteCheck,
  verdict: Verdict,
  span: Span,
): { message: string; fixes: readonly Fix[] } | null {
  const lack = unknownName(verdict);
  const names = ownNames(note.measurements[verdict.block] ?? NOTHING);
  if (lack === null) return null;
  const plain = (name: string): string => name.replaceAll('_', '');
  const [meant, ...others] = [...names].filter(name => plain(name) === plain(lack.word));
  if (meant === undefined || others.length > 0) return null;
  return {
    message: `${lack.word} stands for nothing in this block; ${meant} is likely meant`,
    fixes: [{ title: `Write ${meant}`, edits: [{ span, newText: meant }], sure: false }],
  };
}

/** `5 Nm^-2`: units behind a number that stand together. */
function unitsTogether(note: NoteCheck, verdict: Verdict): { message: string; fixes: readonly Fix[] } | null {
  const lack = unknownName(verdict);
  if (lack === null) return null;
  const isBehindNumber = /[\d⁰-⁹})] ?$/.test(note.text.slice(0, lack.span.start).slice(-2));
  return isBehindNumber ? runTogether(lack.word, lack.span) : null;
}

/** The word of a verdict that stands for nothing, and where it does. */
function unknownName(verdict: Verdict): { readonly word: string; readonly span: Span } | null {
  if (verdict.kind !== 'lack' || verdict.lack.kind !== 'unknown-name') return null;
  const { word, span } = verdict.lack;
  return span === null ? null : { word, span };
}

/** The quantities of a block that have names of their own, recorded or claimed. */
function ownNames({ own, claims }: Pick<Measurement, 'own' | 'claims'>): ReadonlySet<string> {
  const claimed = claims.flatMap(({ subject }) => (subject.kind === 'own' ? [subject.name] : []));
  return new Set([...own.keys(), ...claimed]);
}

function symbolText(claim: Claim): string {
  return claim.symbol ?? '';
}
