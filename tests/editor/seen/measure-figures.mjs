/**
 * What is wrong with the drawings of a page, as an eye would see it; run inside of the page.
 *
 * No text lies on another, none is struck through by a line, none is cut off or too small to be read; no drawing is
 * wider than its room; lines are a pixel wide, and beside the line in line the next ones are seen to be off.
 *
 * @param {{ smallestText: number }} bounds in CSS pixels
 * @returns {readonly string[]} a sentence for each fault
 */
export function figureFaults({ smallestText }) {
  const faults = [];
  for (const svg of document.querySelectorAll('svg[role=img]')) {
    const of = svg.querySelector('title').textContent;
    for (const fault of [...textFaults(svg), ...lineFaults(svg), ...roomFaults(svg)])
      faults.push(`${of}: ${fault}`);
  }
  return faults;

  function textFaults(svg) {
    const texts = [...svg.querySelectorAll('text')].map(element => ({
      words: element.textContent,
      size: Number.parseFloat(getComputedStyle(element).fontSize) * scaleOf(svg),
      box: inkOf(element),
    }));
    const frame = svg.getBoundingClientRect();
    const segments = [...svg.querySelectorAll('path, rect, circle, ellipse')].flatMap(segmentsOf);
    return texts.flatMap(({ words, size, box }, at) => [
      ...(size < smallestText - 0.05 ? [`“${words}” is ${size.toFixed(1)} px high`] : []),
      ...texts
        .slice(at + 1)
        .filter(other => overlap(box, other.box))
        .map(other => `“${words}” lies on “${other.words}”`),
      ...(box.some(
        ([x, y]) => x < frame.left - 1 || frame.right + 1 < x || y < frame.top - 1 || frame.bottom + 1 < y,
      )
        ? [`“${words}” is cut off`]
        : []),
      ...(segments.some(segment => crosses(segment, box)) ? [`a line goes through “${words}”`] : []),
    ]);
  }

  function lineFaults(svg) {
    const found = [];
    for (const path of svg.querySelectorAll('.scale, .vernier, .drum')) {
      if (path.tagName !== 'path') continue;
      const style = getComputedStyle(path);
      const width =
        Number.parseFloat(style.strokeWidth) *
        (style.vectorEffect === 'non-scaling-stroke' ? 1 : scaleOf(svg));
      if (width < 0.995) found.push(`the lines of the ${path.classList} are ${width.toFixed(2)} px wide`);
    }
    const seen = stepSeen(svg);
    if (seen !== null && seen < 1)
      found.push(`beside the line in line the next is off by ${seen.toFixed(2)} px only`);
    return found;
  }

  function roomFaults(svg) {
    const { width, left, right } = svg.getBoundingClientRect();
    const room = (svg.closest('.leastwise-card') ?? document.body).getBoundingClientRect();
    const isWide = left < room.left - 0.5 || room.right + 0.5 < right;
    const isCut = svg.closest('.leastwise-card')?.scrollWidth > svg.closest('.leastwise-card')?.clientWidth;
    return [
      ...(isWide ? [`it is ${width.toFixed(0)} px wide in a room of ${room.width.toFixed(0)} px`] : []),
      ...(isCut ? ['its card has to be moved aside to be read'] : []),
    ];
  }

  function scaleOf(svg) {
    const { a, b } = svg.getScreenCTM();
    return Math.hypot(a, b);
  }

  /** How far the lines of a straight vernier beside the one in line are off their marks, in pixels of the screen. */
  function stepSeen(svg) {
    const group = svg.querySelector('.reading .finest');
    const [fine, coarse] = ['.vernier', '.scale'].map(name => group?.querySelector(`path${name}`));
    if (!fine || !coarse) return null;
    const [[[x1], [x2]] = []] = segmentsOf(coarse);
    const along = ([[x, y]]) => (Math.abs(x1 - x2) < 0.01 ? x : y);
    const marks = segmentsOf(coarse).map(along);
    const off = segmentsOf(fine).map(line => Math.min(...marks.map(mark => Math.abs(mark - along(line)))));
    const at = off.indexOf(Math.min(...off));
    const beside = [off[at - 1], off[at + 1]].filter(each => each !== undefined);
    return beside.length === 0 || off[at] > 0.05 ? null : Math.max(...beside);
  }

  /** The corners of what is printed, without the room that a font keeps above and below its capitals. */
  function inkOf(text) {
    const { x, y, width, height } = text.getBBox();
    const matrix = text.getScreenCTM();
    const [top, bottom] = [y + height * 0.24, y + height * 0.78];
    return [
      [x, top],
      [x + width, top],
      [x + width, bottom],
      [x, bottom],
    ].map(([px, py]) => on(matrix, px, py));
  }

  function on(matrix, x, y) {
    const { x: px, y: py } = new DOMPoint(x, y).matrixTransform(matrix);
    return [px, py];
  }

  /** Every straight piece of an outline, curves in short pieces, on the screen. */
  function segmentsOf(shape) {
    const matrix = shape.getScreenCTM();
    const d = shape.getAttribute('d');
    const style = getComputedStyle(shape);
    if (style.stroke === 'none' && style.fill === 'none') return [];
    if (d !== null && /^[MLZ\d\s.,-]*$/.test(d)) {
      const segments = [];
      let last = null;
      let first = null;
      for (const [, kind, x, y] of d.matchAll(/([MLZ])(?:(-?[\d.]+)[ ,](-?[\d.]+))?/g)) {
        const point = kind === 'Z' ? first : on(matrix, Number(x), Number(y));
        if (kind === 'M') first = point;
        else segments.push([last, point]);
        last = point;
      }
      return segments;
    }
    const length = shape.getTotalLength();
    const count = Math.max(2, Math.ceil(length / 3));
    const points = Array.from({ length: count + 1 }, (_, at) => {
      const { x, y } = shape.getPointAtLength((length * at) / count);
      return on(matrix, x, y);
    });
    return points
      .slice(1)
      .map((point, at) => [points[at], point])
      .filter(([[ax, ay], [bx, by]]) => Math.hypot(ax - bx, ay - by) < 8 * Math.max(1, matrix.a));
  }

  function crosses(segment, box) {
    return overlap(segment, box);
  }

  /** Whether two convex outlines share more than a pixel, by the axes of their sides. */
  function overlap(one, other) {
    const axes = [one, other].flatMap(shape =>
      shape.map(([x, y], at) => {
        const [nx, ny] = shape[(at + 1) % shape.length];
        const length = Math.hypot(nx - x, ny - y) || 1;
        return [(ny - y) / length, (x - nx) / length];
      }),
    );
    return axes.every(([ax, ay]) => {
      const [a, b] = [one, other].map(shape => shape.map(([x, y]) => x * ax + y * ay));
      return Math.min(Math.max(...a), Math.max(...b)) - Math.max(Math.min(...a), Math.min(...b)) > 0.3;
    });
  }
}
