/**
 * Where cards and drawings of a page are too pale against what lies behind them; run inside of the page.
 *
 * Lines want 3 : 1, texts 4.5 : 1, as WCAG 2.2 reckons contrast (1.4.3, 1.4.11), with every opacity counted.
 *
 * @param {{ onPaper: boolean }} how on paper all must be black on white besides
 * @returns {{ faults: readonly string[], measured: number, palest: number }}
 */
export function contrastFaults({ onPaper }) {
  const faults = new Set();
  const canvas = new OffscreenCanvas(1, 1).getContext('2d', { willReadFrequently: true });
  const colours = new Map();
  let measured = 0;
  let palest = 21;
  const ground = colourOf(
    getComputedStyle(document.documentElement).getPropertyValue('--vscode-editor-background') || 'white',
  );
  for (const card of document.querySelectorAll('.leastwise-card, svg[role=img]:not(.leastwise-card *)')) {
    for (const element of [card, ...card.querySelectorAll('*')]) {
      if (element.closest('.katex-mathml, title, desc')) continue;
      const style = getComputedStyle(element);
      if (style.visibility === 'hidden' || style.display === 'none') continue;
      if (element instanceof SVGElement && element.ownerSVGElement !== null) drawn(element, style);
      else if (!(element instanceof SVGElement)) written(element, style);
    }
  }
  return { faults: [...faults], measured, palest: Number(palest.toFixed(2)) };

  function drawn(element, style) {
    if (!(element instanceof SVGGeometryElement || element instanceof SVGTextElement)) return;
    const isText = element instanceof SVGTextElement;
    for (const paint of ['stroke', 'fill'])
      if (style[paint] !== 'none')
        compare(
          element,
          style[paint],
          Number(style[`${paint}Opacity`]),
          isText ? 4.5 : 3,
          isText ? 'text' : 'line',
        );
  }

  function written(element, style) {
    const hasWords = [...element.childNodes].some(
      ({ nodeType, data }) => nodeType === 3 && data.trim() !== '',
    );
    if (hasWords) compare(element, style.color, 1, 4.5, 'text');
    for (const side of ['Top', 'Right', 'Bottom', 'Left'])
      if (style[`border${side}Style`] !== 'none' && Number.parseFloat(style[`border${side}Width`]) > 0)
        compare(element, style[`border${side}Color`], 1, 3, 'line');
  }

  function compare(element, paint, opacity, wanted, what) {
    const back = behind(element);
    const own = colourOf(paint);
    let share = own[3] * opacity;
    for (let each = element; each instanceof Element; each = each.parentElement)
      share *= Number(getComputedStyle(each).opacity);
    const seen = laidOver([own[0], own[1], own[2], share], back);
    const ratio = contrast(seen, back);
    measured += 1;
    palest = Math.min(palest, ratio);
    const name = `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''}`;
    if (ratio < wanted)
      faults.add(`${what} of ${name}: ${ratio.toFixed(2)} : 1, ${paint} on ${back.map(Math.round)}`);
    if (onPaper && contrast(seen, [0, 0, 0]) > 1.05)
      faults.add(`${what} of ${name} is not black on paper: ${paint}`);
    if (onPaper && contrast(back, [255, 255, 255]) > 1.05)
      faults.add(`${name} does not stand on white: ${back}`);
  }

  /** The ground on which an element stands, all that lies behind it counted. */
  function behind(element) {
    const layers = [];
    for (let each = element; each instanceof Element; each = each.parentElement) {
      const colour = colourOf(getComputedStyle(each).backgroundColor);
      if (!(each instanceof SVGElement) && colour[3] > 0) layers.push(colour);
      if (colour[3] === 1) break;
    }
    return layers.reduceRight((under, layer) => laidOver(layer, under), onPaper ? [255, 255, 255] : ground);
  }

  function laidOver([r, g, b, share], [ur, ug, ub]) {
    return [r * share + ur * (1 - share), g * share + ug * (1 - share), b * share + ub * (1 - share)];
  }

  function contrast(one, other) {
    const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
  }

  function luminance(colour) {
    const [r, g, b] = colour.slice(0, 3).map(value => {
      const share = value / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }

  /** Any colour that CSS knows, as red, green, blue up to 255 and its share. */
  function colourOf(text) {
    const known = colours.get(text);
    if (known !== undefined) return known;
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = text;
    canvas.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
    const colour = a === 0 ? [0, 0, 0, 0] : [r, g, b, a / 255];
    colours.set(text, colour);
    return colour;
  }
}
