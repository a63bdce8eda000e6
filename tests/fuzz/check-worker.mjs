// Checks and draws the notes that it is sent, and says what is wrong with what came of each; null for nothing.
import { parentPort } from 'node:worker_threads';
import { checkNote, drawNote } from '../../server/dist/index.mjs';

parentPort.on('message', text => {
  parentPort.postMessage(fault(text));
});

function fault(text) {
  try {
    return faultOf(text, checkNote(text)) ?? drawingFault(text);
  } catch (error) {
    return `it throws: ${error.stack}`;
  }
}

/** Every place lies in the note, in order, and every finding says something. */
function faultOf(text, { blocks, findings }) {
  const inside = ({ start, end }) => 0 <= start && start <= end && end <= text.length;
  let before = 0;
  for (const { span, message, fixes, related } of findings) {
    if (span.start < before) return `a finding at ${span.start} stands behind one at ${before}`;
    before = span.start;
    const spans = [
      span,
      ...related.map(other => other.span),
      ...fixes.flatMap(fix => fix.edits.map(edit => edit.span)),
    ];
    if (!spans.every(inside)) return `a place of the finding “${message}” lies outside the note`;
    if (message.trim() === '') return 'a finding says nothing';
  }
  for (const block of blocks) {
    if (!inside(block.span)) return 'a block lies outside the note';
    for (const quantity of block.quantities) if (quantity.value === '') return 'a quantity has no value';
  }
  return findings.length > MOST_FINDINGS ? `there are ${findings.length} findings` : null;
}

/** More than one for each three characters of the longest note would be a flood. */
const MOST_FINDINGS = 20_000;

function drawingFault(text) {
  for (const style of ['question', 'worked'])
    for (const { figure } of drawNote(text, style))
      if (!figure.svg.startsWith('<svg')) return `a ${style} figure is no drawing`;
  return null;
}
