import type { InstrumentScales } from '../../language/instruments.ts';

/** How a closed instrument may stand, in the words of its scales. */
export function closedForms(scales: InstrumentScales | null): readonly string[] {
  switch (scales) {
    case null:
      return ['zeros coincide', ...VERNIER, ...CIRCULAR];
    case 'vernier':
      return ['zeros coincide', ...VERNIER, 'vernier zero left, division 3 from the far end'];
    case 'angle vernier':
      return ['zeros coincide', ...VERNIER, '4′ on the arc', '4′ off the arc'];
    case 'screw':
      return ['zeros coincide', ...CIRCULAR, ...LINEAR];
    case 'screw with vernier':
      return [
        'zeros coincide',
        'circular zero below the line, division 1, vernier division 4',
        'circular zero above the line, division 48, vernier division 4',
        ...LINEAR,
      ];
    case 'dial':
      return ['zeros coincide', ...CIRCULAR];
  }
}

const VERNIER = ['vernier zero right, division 3', 'vernier zero left, division 7'];
const CIRCULAR = ['circular zero below the line, division 3', 'circular zero above the line, division 47'];
const LINEAR = ['linear zero visible, division 3', 'linear zero hidden, division 47'];
