import { describe, expect, it } from 'vitest';
import * as S from '../../server/src/engine/scalar.ts';
import { circularReadingTimesPitch } from '../../server/src/engine/slips/circular-reading-times-pitch.ts';
import { closedDivisionAsRead } from '../../server/src/engine/slips/closed-division-as-read.ts';
import { differenceNotLeastCount } from '../../server/src/engine/slips/difference-not-least-count.ts';
import { divisionMiscounted } from '../../server/src/engine/slips/division-miscounted.ts';
import { forwardRule } from '../../server/src/engine/slips/forward-rule.ts';
import { fullCircleMissed } from '../../server/src/engine/slips/full-circle-missed.ts';
import { halfTurnMissed } from '../../server/src/engine/slips/half-turn-missed.ts';
import { markAtCoincidence } from '../../server/src/engine/slips/mark-at-coincidence.ts';
import { nextMark } from '../../server/src/engine/slips/next-mark.ts';
import { rotationMiscounted } from '../../server/src/engine/slips/rotation-miscounted.ts';
import { vernierDivisionForLeastCount } from '../../server/src/engine/slips/vernier-division-for-least-count.ts';
import { zeroCorrectionLeftOut } from '../../server/src/engine/slips/zero-correction-left-out.ts';
import { zeroCorrectionSign } from '../../server/src/engine/slips/zero-correction-sign.ts';
import { zeroCorrectionTwice } from '../../server/src/engine/slips/zero-correction-twice.ts';
import { unitWord } from '../../server/src/engine/unit.ts';
import { numbersOf, q, type Said, sentencesOf, slipData } from './data.ts';

// Source of the wrong values: each slip's own rule, worked out by hand; common practice, no source.

/** Ten on nine, 24.7 mm: line 7 is in line with the mark of 31 mm. */
const TEN_ON_NINE: Said = {
  target: 'observed reading',
  truth: '24.7 mm',
  vernier: 'on main scale',
  count: 10,
  terms: {
    'observed reading': '24.7 mm',
    'main scale reading': '24 mm',
    'coinciding division': '7',
    'main scale division': '1 mm',
    'vernier scale division': '0.9 mm',
    'least count': '0.1 mm',
  },
};

/** Fifty divisions on half a millimetre, 6.34 mm. */
const SCREW: Said = {
  target: 'observed reading',
  truth: '6.34 mm',
  isScrew: true,
  count: 50,
  terms: {
    'observed reading': '6.34 mm',
    'linear scale reading': '6 mm',
    'circular scale reading': '34',
    'linear scale division': '0.5 mm',
    'circular scale division': '0.01 mm',
    'least count': '0.01 mm',
    pitch: '0.5 mm',
  },
};

const withTerms = (said: Said, terms: Said['terms']): Said => ({
  ...said,
  terms: { ...said.terms, ...terms },
});

describe('a zero correction', () => {
  const corrected: Said = {
    target: 'corrected reading',
    truth: '2.478 cm',
    terms: { 'zero error': '0.06 mm' },
  };

  it('left out, the wrong way, twice', () => {
    const data = slipData(corrected);
    expect(numbersOf(zeroCorrectionLeftOut, data, 'cm')).toEqual(['2.484']);
    expect(numbersOf(zeroCorrectionSign, data, 'cm')).toEqual(['2.49']);
    expect(numbersOf(zeroCorrectionTwice, data, 'cm')).toEqual(['2.472']);
  });

  it('is known where only the correction is given', () => {
    const data = slipData({ ...corrected, terms: { 'zero correction': '-0.06 mm' } });
    expect(numbersOf(zeroCorrectionSign, data, 'cm')).toEqual(['2.49']);
  });

  it('is no slip where there is no error, or where the claim is another one', () => {
    for (const said of [
      { ...corrected, terms: { 'zero error': '0 mm' } },
      { ...corrected, terms: {} },
      { ...corrected, target: 'observed reading' },
    ]) {
      expect(numbersOf(zeroCorrectionLeftOut, slipData(said))).toEqual([]);
      expect(numbersOf(zeroCorrectionSign, slipData(said))).toEqual([]);
      expect(numbersOf(zeroCorrectionTwice, slipData(said))).toEqual([]);
    }
  });
});

describe('a reading of a vernier', () => {
  it('with the mark in line, the next mark, and a vernier division for the least count', () => {
    const data = slipData(TEN_ON_NINE);
    expect(new Set(numbersOf(markAtCoincidence, data, 'mm'))).toEqual(new Set(['31.7']));
    expect(numbersOf(nextMark, data, 'mm')).toEqual(['25.7']);
    expect(numbersOf(vernierDivisionForLeastCount, data, 'mm')).toEqual(['30.3']);
  });

  it('is carried into the corrected reading and the vernier scale reading', () => {
    const corrected = slipData(
      withTerms(
        { ...TEN_ON_NINE, target: 'corrected reading', truth: '24.9 mm' },
        { 'zero error': '-0.2 mm' },
      ),
    );
    expect(numbersOf(nextMark, corrected, 'mm')).toEqual(['25.9']);
    const share = slipData({ ...TEN_ON_NINE, target: 'vernier scale reading', truth: '0.7 mm' });
    expect(numbersOf(vernierDivisionForLeastCount, share, 'mm')).toEqual(['6.3']);
  });

  it('finds the mark where it was not recorded', () => {
    const { 'main scale reading': _, ...terms } = TEN_ON_NINE.terms ?? {};
    expect(numbersOf(vernierDivisionForLeastCount, slipData({ ...TEN_ON_NINE, terms }), 'mm')).toEqual([
      '30.3',
    ]);
  });

  it('takes a mark that is counted in divisions', () => {
    const data = slipData(withTerms(TEN_ON_NINE, { 'main scale reading': '24' }));
    expect(numbersOf(nextMark, data, 'mm')).toEqual(['25.7']);
  });

  it('off by a line, but never by one before line 0', () => {
    expect(numbersOf(divisionMiscounted, slipData(TEN_ON_NINE), 'mm')).toEqual(['24.8', '24.6']);
    const onMark = withTerms({ ...TEN_ON_NINE, truth: '24 mm' }, { 'coinciding division': '0' });
    expect(numbersOf(divisionMiscounted, slipData(onMark), 'mm')).toEqual(['24.1']);
  });
});

describe('the forward rule', () => {
  const elevenOnTen = withTerms(
    { ...TEN_ON_NINE, truth: '14.7 mm' },
    { 'main scale reading': '14 mm', 'coinciding division': '3', 'vernier scale division': '1.1 mm' },
  );

  it('on the longer division, with the offer to record how its numbers run', () => {
    expect(numbersOf(forwardRule, slipData(elevenOnTen), 'mm')).toEqual(['14.3']);
    expect(sentencesOf(forwardRule, slipData(elevenOnTen))[0]).toContain('`vernier runs: backward`');
  });

  it('makes no offer where backward numbers would not help: 10 VSD = 13 MSD', () => {
    const thirteenOnTen = withTerms(elevenOnTen, { 'vernier scale division': '1.3 mm' });
    const data = slipData({ ...thirteenOnTen, truth: '14.1 mm' });
    expect(numbersOf(forwardRule, data, 'mm')).toEqual(['14.3']);
    expect(sentencesOf(forwardRule, data)[0]).not.toContain('backward');
    expect(sentencesOf(forwardRule, data)[0]).toContain('14.1 mm + 3 × 1.3 mm = 18 mm');
  });

  it('on the shorter division numbered backward', () => {
    const backward = withTerms({ ...TEN_ON_NINE, truth: '24.3 mm', runsBackward: true }, {});
    expect(numbersOf(forwardRule, slipData(backward), 'mm')).toEqual(['24.7']);
    expect(sentencesOf(forwardRule, slipData(backward))[0]).toContain('10 - 7 = 3 least counts');
  });
});

describe('the closed position', () => {
  const calipers: Said = {
    target: 'zero error',
    truth: '-0.15 mm',
    vernier: 'on main scale',
    count: 20,
    closed: { division: S.realValue(q('17').scalar), vernierDivision: null, side: 'negative' },
    terms: { 'least count': '0.05 mm', 'main scale division': '1 mm', 'vernier scale division': '0.95 mm' },
  };

  it('counted from the wrong end, with either sign', () => {
    expect(numbersOf(closedDivisionAsRead, slipData(calipers), 'mm')).toEqual(['0.85', '-0.85']);
  });

  it('counted from the far end already, and then once more', () => {
    const far = { ...calipers, closed: { ...calipers.closed!, division: S.realValue(q('3').scalar) } };
    expect(numbersOf(closedDivisionAsRead, slipData(far), 'mm')).toEqual(['0.85', '-0.85']);
  });

  it('is only a sign where the middle line is in line', () => {
    const middle = {
      ...calipers,
      truth: '-0.5 mm',
      closed: { ...calipers.closed!, division: S.realValue(q('10').scalar) },
    };
    expect(numbersOf(closedDivisionAsRead, slipData(middle), 'mm')).toEqual([]);
  });

  it('of several checks has a mean that no division makes', () => {
    expect(numbersOf(closedDivisionAsRead, slipData({ ...calipers, truth: '-0.125 mm' }))).toEqual([]);
  });

  it('is carried into a correction and a corrected reading, and no further', () => {
    const corrected = withTerms(
      { ...calipers, target: 'corrected reading', truth: '24.85 mm' },
      { 'zero error': '-0.15 mm' },
    );
    // 24.7 mm less 0.85 mm, and with 0.85 mm added.
    expect(numbersOf(closedDivisionAsRead, slipData(corrected), 'mm')).toEqual(['23.85', '25.55']);
    const correction = { ...corrected, target: 'zero correction', truth: '0.15 mm' };
    expect(numbersOf(closedDivisionAsRead, slipData(correction), 'mm')).toEqual(['-0.85', '0.85']);
    const observed = { ...corrected, target: 'observed reading', truth: '24.7 mm' };
    expect(numbersOf(closedDivisionAsRead, slipData(observed), 'mm')).toEqual([]);
  });
});

describe('a reading of a screw', () => {
  it('a turn off, a drum division off, and every division a whole turn', () => {
    const data = slipData(SCREW);
    expect(numbersOf(halfTurnMissed, data, 'mm')).toEqual(['5.84', '6.84']);
    expect(numbersOf(divisionMiscounted, data, 'mm')).toEqual(['6.35', '6.33']);
    expect(numbersOf(circularReadingTimesPitch, data, 'mm')).toEqual(['23']);
    expect(numbersOf(rotationMiscounted, data)).toEqual([]);
  });

  it('of counted turns is a miscounted rotation, not a mark on the sleeve', () => {
    const counted = withTerms(SCREW, { 'full rotations': '12' });
    expect(numbersOf(rotationMiscounted, slipData(counted), 'mm')).toEqual(['6.84', '5.84']);
    expect(numbersOf(halfTurnMissed, slipData(counted))).toEqual([]);
    expect(numbersOf(nextMark, slipData(counted))).toEqual([]);
  });

  it('with a vernier on the drum is off by a line or by a drum division', () => {
    const onDrum = withTerms(
      { ...SCREW, truth: '1.776 mm', vernier: 'on drum', count: 10 },
      {
        'observed reading': '1.776 mm',
        'linear scale reading': '1.5 mm',
        'circular scale reading': '27',
        'coinciding division': '6',
        'vernier scale division': '0.009 mm',
        'least count': '0.001 mm',
      },
    );
    expect(numbersOf(divisionMiscounted, slipData(onDrum), 'mm')).toEqual([
      '1.777',
      '1.775',
      '1.786',
      '1.766',
    ]);
    expect(numbersOf(vernierDivisionForLeastCount, slipData(onDrum), 'mm')).toEqual(['1.824']);
  });
});

describe('a full circle', () => {
  const disc: Said = {
    target: 'observed reading',
    truth: '1.23 mm',
    isScrew: true,
    count: 100,
    terms: {
      'initial circular reading': '92',
      'final circular reading': '15',
      'full rotations': '1',
      'least count': '0.01 mm',
      pitch: '1 mm',
    },
  };

  it('is missed on a disc that passed its zero, whichever way it turned', () => {
    expect(numbersOf(fullCircleMissed, slipData(disc), 'mm')).toEqual(['0.23', '1.77']);
    const lower = withTerms(disc, { 'initial circular reading': '15', 'final circular reading': '92' });
    expect(numbersOf(fullCircleMissed, slipData(lower), 'mm')).toEqual(['0.23', '1.77']);
  });

  it('is not missed on a disc that did not pass its zero', () => {
    const within = withTerms(
      { ...disc, truth: '1.77 mm' },
      { 'initial circular reading': '15', 'final circular reading': '92' },
    );
    expect(numbersOf(fullCircleMissed, slipData(within))).toEqual([]);
  });

  it('is not claimed after half a turn, which is the same both ways', () => {
    const half = withTerms(
      { ...disc, truth: '1.5 mm' },
      { 'initial circular reading': '70', 'final circular reading': '20' },
    );
    expect(numbersOf(fullCircleMissed, slipData(half))).toEqual([]);
  });

  it('of an angle', () => {
    const angle: Said = { target: 'own', truth: '38.7 deg', stated: '321.3 deg' };
    expect(numbersOf(fullCircleMissed, slipData(angle), 'deg')).toEqual(['321.3', '-321.3', '398.7']);
    expect(numbersOf(fullCircleMissed, slipData({ ...angle, target: 'zero error' }))).toEqual([]);
  });
});

describe('letters for numbers', () => {
  const mm = unitWord('mm')!;
  const w = { ...q('1 mm'), scalar: S.letter('w', 'positive') };

  it('work as well: the difference of w and 1.9 w, where the least count is w/10', () => {
    const times = (count: string) => ({ ...w, scalar: S.multiply(w.scalar, q(count).scalar) });
    const data = slipData({
      target: 'least count',
      truth: times('0.1'),
      vernier: 'on main scale',
      terms: { 'main scale division': { ...w, unit: mm }, 'vernier scale division': times('1.9') },
    });
    expect(numbersOf(differenceNotLeastCount, data)).toEqual(['9w/10', '-9w/10']);
    expect(numbersOf(vernierDivisionForLeastCount, data)).toEqual(['19w/10']);
  });
});
