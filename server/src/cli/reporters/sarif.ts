import { createHash } from 'node:crypto';
import { version } from '../../../../package.json';
import type { CheckedNote, Finding } from '../../checks/finding.ts';
import { type LineIndex, lineIndex } from '../../checks/line-index.ts';
import { stretchOf } from '../../checks/note-report.ts';
import type { Fix } from '../../language/problem.ts';
import { RULE_NAMES } from '../../language/rule-names.ts';
import type { Span } from '../../language/syntax.ts';
import { recordedFinding, recordedKey } from '../baseline/recorded-finding.ts';
import { asJson } from './json.ts';
import { type Checkout, pathFromRoot } from './path-from-root.ts';
import type { Reporter } from './reporter.ts';
import { sarifRules } from './sarif-rules.ts';
import { type Shown, shownFindings } from './shown-findings.ts';
import { partsOf, worstFirstPiece } from './worst-first.ts';

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';

/**
 * The report that code hosts read: SARIF 2.1.0, an OASIS standard. Errors stand before warnings, for hosts that cut; what
 * could not be done is told as well. Paths count from the root of the checkout.
 */
export function sarifReporter(options: Shown & { readonly checkout: Checkout | null }): Reporter {
  let results = 0;
  let laterResults = 0;
  let ran = true;
  const separated = (lines: readonly string[], before: number) =>
    lines.map((line, at) => `${before + at === 0 ? '\n' : ',\n'}${line}`).join('');
  return {
    get opening() {
      const driver = { name: 'leastwise', semanticVersion: version, rules: sarifRules() };
      return `{"$schema":"${SCHEMA}","version":"2.1.0","runs":[{"tool":${asJson({ driver })},"columnKind":"utf16CodeUnits","results":[`;
    },
    note: (path, text, note) => {
      const uri = uriOf(path, options.checkout);
      const index = lineIndex(text);
      const prints = fingerprints(note, text);
      return worstFirstPiece(shownFindings(note, options), finding =>
        asJson(resultOf(finding, { uri, index, print: prints.get(finding) ?? '', waived: options.waived })),
      );
    },
    add: piece => {
      const { first } = partsOf(piece);
      const text = separated(first, results);
      results += first.length;
      return text;
    },
    closing: summary => {
      const counts = { notes: summary.notes, blocks: summary.blocks, claims: summary.claims };
      return `\n],"executionSuccessful":${ran}}],"properties":${asJson(counts)}}]}\n`;
    },
    keeps: {
      later: piece => {
        const { later } = partsOf(piece);
        const text = separated(later, laterResults);
        laterResults += later.length;
        return text;
      },
      beforeLater: () => (results > 0 && laterResults > 0 ? ',' : ''),
      beforeTroubles: () => '\n],"invocations":[{"toolExecutionNotifications":[',
      trouble: (sentence, before) => {
        ran = false;
        return separated([asJson({ level: 'error', message: { text: plainText(sentence) } })], before);
      },
    },
  };
}

/** Where a finding stands, and what else is told of it. */
interface Place {
  readonly uri: string;
  readonly index: LineIndex;
  readonly print: string;
  readonly waived: boolean;
}

function resultOf(finding: Finding, place: Place): object {
  const { rule, severity, message, slip, block, term, row, stated, computed, cause } = finding;
  const related = [
    ...(cause === null ? [] : [{ span: cause, message: 'where the trouble began' }]),
    ...finding.related.filter(({ span }) => span.start !== cause?.start),
  ];
  return {
    ruleId: rule,
    ruleIndex: RULE_NAMES.indexOf(rule),
    level: severity,
    message: { text: plainText(slip === null ? message : `${message} (the slip ${slip})`) },
    locations: [
      {
        physicalLocation: physicalLocation(place, finding.span),
        ...(block === null ? {} : { logicalLocations: [{ name: block, kind: 'block' }] }),
      },
    ],
    ...(related.length === 0
      ? {}
      : {
          relatedLocations: related.map(({ span, message: says }, id) => ({
            id,
            physicalLocation: physicalLocation(place, span),
            message: { text: plainText(says) },
          })),
        }),
    // The second name is the one by which the largest host knows an alert again.
    partialFingerprints: { 'findingHash/v1': place.print, primaryLocationLineHash: place.print },
    ...(finding.fixes.length === 0 ? {} : { fixes: finding.fixes.map(fix => fixOf(place, fix)) }),
    // The standard wants the field in all results or in none.
    ...(place.waived ? { suppressions: suppressionsOf(finding) } : {}),
    properties: { block, term, row, stated, computed, slip },
  };
}

function physicalLocation({ uri, index }: Place, span: Span): object {
  return { artifactLocation: { uri }, region: regionOf(index, span) };
}

function regionOf(index: LineIndex, span: Span): object {
  const { line, column, endLine, endColumn } = stretchOf(index, span);
  return { startLine: line, startColumn: column, endLine, endColumn };
}

function fixOf({ uri, index }: Place, { title, edits }: Fix): object {
  const replacements = edits.map(({ span, newText }) => ({
    deletedRegion: regionOf(index, span),
    insertedContent: { text: newText },
  }));
  return {
    description: { text: plainText(title) },
    artifactChanges: [{ artifactLocation: { uri }, replacements }],
  };
}

function suppressionsOf({ waived }: Finding): readonly object[] {
  return waived === null ? [] : [{ kind: 'inSource', status: 'accepted', justification: waived }];
}

/**
 * What a finding is about, in a short word that stays the same when lines come and go above it. Of findings that are alike
 * in a note each has its number.
 */
function fingerprints(note: CheckedNote, text: string): ReadonlyMap<Finding, string> {
  const seen = new Map<string, number>();
  return new Map(
    note.findings.map(finding => {
      const key = recordedKey(recordedFinding(finding, text));
      const number = (seen.get(key) ?? 0) + 1;
      seen.set(key, number);
      return [finding, `${createHash('sha256').update(key).digest('hex').slice(0, 16)}:${number}`] as const;
    }),
  );
}

/** Words in brackets before words in parentheses would be a link. */
function plainText(text: string): string {
  return text.replaceAll('](', '\\](');
}

/** A path as an address: from the root of the checkout, or with its scheme where it is a whole one. */
function uriOf(path: string, checkout: Checkout | null): string {
  const encoded = pathFromRoot(path, checkout)
    .split('/')
    // Half of a surrogate pair stands for no letter.
    .map(part => encodeURIComponent(part.replace(/\p{Cs}/gu, '\ufffd')))
    .join('/');
  if (encoded.startsWith('/')) return `file://${encoded}`;
  return /^[A-Za-z]%3A\//.test(encoded) ? `file:///${encoded.replace('%3A', ':')}` : encoded;
}
