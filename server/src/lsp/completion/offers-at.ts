import { DEFAULT_SETTINGS, type Settings } from '../../checks/settings.ts';
import { blockKey } from '../../language/names.ts';
import type { Fence } from '../../language/syntax.ts';
import { blockNamesOf, namingAt, nearBlocks } from '../near-blocks.ts';
import { fenceAt, noteStructure } from '../note-structure.ts';
import type { OpenNote } from '../open-notes.ts';
import type { AskedBlock } from './asked-block.ts';
import { blockState, lacksRecords } from './block-state.ts';
import { bodyOffers, fenceOffers, openingLine } from './fence-offers.ts';
import { lineOffers } from './line-offers.ts';
import { linkOffers } from './link-offers.ts';
import { ofOffers } from './of-offers.ts';
import type { Offer } from './offer.ts';
import { completionPlace, type Place } from './place.ts';
import { cellOffers, headOffers } from './table-offers.ts';
import { unitOffers } from './unit-offers.ts';
import { valueOffers } from './value-offers.ts';

/** What may be typed at a place, and from where on it stands in the place of what is typed there. */
export interface Offers {
  readonly from: number;
  readonly offers: readonly Offer[];
}

/**
 * What may be typed at a place of a note: on the line that opens a fence, or in a measurement block; null anywhere
 * else. `trigger` is the character that was just typed, null where somebody asked. Only the block there is looked at.
 */
export function offersAt(
  open: Pick<OpenNote, 'document' | 'text'>,
  offset: number,
  trigger: string | null = null,
  settings: Settings = DEFAULT_SETTINGS,
): Offers | null {
  const { text } = open;
  const structure = noteStructure(open);
  const fence = fenceAt(structure, offset);
  const place = fence === null ? null : completionPlace(fence, offset);
  if (fence === null || place === null) {
    const opening = trigger === ' ' ? null : openingLine(text, offset);
    return opening === null ? null : { from: opening.from, offers: fenceOffers(opening) };
  }
  const near = nearBlocks(text, structure, [fence], [], settings);
  const at = near.fences.indexOf(fence);
  const measurement = near.check().measurements[at]!;
  const naming = namingAt(near, at);
  const asked: AskedBlock = {
    ...{ near, measurement, naming, facts: near.check().facts.block(at) },
    state: blockState(measurement, naming.here),
    blocks: blockNamesOf(structure).filter(
      name => measurement.name === null || blockKey(name) !== blockKey(measurement.name),
    ),
  };
  if (trigger !== null && !isFor(place, trigger, asked)) return null;
  const typed = place.typed.toLowerCase();
  const offers = offersFor(place, asked, fence, offset).filter(
    // A space ends a word, so what does not begin with the words before it is not meant.
    ({ label, about }) =>
      !place.typed.endsWith(' ') ||
      [label, about?.name ?? ''].some(name => name.toLowerCase().startsWith(typed)),
  );
  if (offers.length === 0) return null;
  const needsSpace = place.typed === '' && /[:=≈]/.test(text[offset - 1] ?? '');
  return {
    from: place.from,
    offers: needsSpace ? offers.map(each => ({ ...each, insert: ` ${each.insert}` })) : offers,
  };
}

/** Whether a character that was typed asks for anything: a space between words, or a line for one that has all, does not. */
function isFor(place: Place, trigger: string, { state }: AskedBlock): boolean {
  switch (trigger) {
    case '\n':
      return place.kind === 'line' && place.typed === '' && lacksRecords(state);
    case ' ':
      return place.kind !== 'line' || place.typed !== '';
    case '|':
      return place.kind === 'head' || place.kind === 'cell';
    case ':':
      return place.kind === 'value' && place.typed === '';
    case '=':
      return place.kind === 'link' && place.typed === '';
    default:
      return false;
  }
}

function offersFor(place: Place, asked: AskedBlock, fence: Fence, offset: number): readonly Offer[] {
  switch (place.kind) {
    case 'line': {
      const { measurement, state, blocks } = asked;
      const { question } = measurement;
      const isEmpty = fence.lines.every(({ text }) => text.trim() === place.typed.trim());
      const lines = lineOffers({
        state,
        blocks,
        letters: question.options.map(({ letter }) => letter),
        isAsked: question.find !== null || question.options.length > 0,
      });
      const prefix = fence.lines.find(({ start }) => start <= offset)?.prefix ?? fence.prefix;
      return isEmpty ? [...lines, ...bodyOffers(prefix, 1.5)] : lines;
    }
    case 'of':
      return ofOffers(asked, place.base);
    case 'value':
      return valueOffers(asked, place.left);
    case 'link':
      return linkOffers(asked, place.left, place.isEmpty);
    case 'unit':
      return unitOffers(asked, place.left, place.isRecord);
    case 'head':
      return headOffers(asked, place.heads);
    case 'cell':
      return cellOffers(asked, place.head, offset);
  }
}
