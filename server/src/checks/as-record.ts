import type { Claim } from '../language/measurement.ts';
import type { Fix } from '../language/problem.ts';
import type { DivisionTerm } from '../language/term-names.ts';

/** Writes a claim as the record that it is read as: a colon for the sign, the value behind it, its steps as a comment. */
export function asRecord(text: string, claim: Claim): Fix {
  const { signSpan, links, subject } = claim;
  if (subject.kind === 'division') {
    // `10 VSD = 9 MSD` joins the scale that it speaks of.
    const record = scaleOf(subject.division);
    return {
      title: `Write ${record}:`,
      edits: [{ span: { start: claim.span.start, end: claim.span.start }, newText: `${record}: ` }],
      sure: true,
    };
  }
  const last = links[links.length - 1];
  if (last === undefined || links.length === 1) {
    const before = text.slice(0, signSpan.start).replace(/[ \t]+$/, '').length;
    return {
      title: 'Write a colon',
      edits: [{ span: { start: before, end: signSpan.end }, newText: ':' }],
      sure: true,
    };
  }
  const before = text.slice(0, signSpan.start).replace(/[ \t]+$/, '').length;
  // What led to the value stays, as a comment behind it; over several lines it has no place there.
  const steps = text.slice(signSpan.start, last.span.start).replace(/[ \t]*[=≈][ \t]*$/, '');
  const value = { span: { start: before, end: last.span.start }, newText: ': ' };
  if (/[\r\n#]/.test(steps))
    return { title: 'Write a colon and the value alone', edits: [value], sure: false };
  return {
    title: 'Write a colon and the value',
    edits: [value, { span: { start: last.span.end, end: last.span.end }, newText: ` # ${steps}` }],
    sure: true,
  };
}

/** The scale whose record a line about a division belongs to. */
export function scaleOf(division: DivisionTerm): string {
  return division === 'rotation' ? 'screw' : division.replace(/ division$/, '');
}
