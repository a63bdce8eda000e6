// Draws icon.png: a vernier below its main scale, one pair of lines coinciding.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { crc32, deflateSync } from 'node:zlib';

const SIDE = 128;
/** Each pixel is the mean of this many samples across and down. */
const SAMPLES = 4;

const GROUND = [27, 54, 74];
const MAIN = [232, 226, 208];
const VERNIER = [250, 247, 238];
const LINE = [27, 54, 74];
const COINCIDING = [214, 84, 42];

/** Ten divisions of the vernier cover nine of the main scale; the fourth line coincides. */
const MAIN_DIVISION = 20;
const VERNIER_DIVISION = 18;
const COINCIDING_LINE = 3;
const FIRST_MARK = 4;
const COINCIDING_AT = FIRST_MARK + 3 * MAIN_DIVISION;

writeFileSync(join(import.meta.dirname, 'icon.png'), png(SIDE, pixels()));

function pixels() {
  const rows = [];
  for (let y = 0; y < SIDE; y += 1)
    for (let x = 0; x < SIDE; x += 1) {
      const sum = [0, 0, 0, 0];
      for (let i = 0; i < SAMPLES; i += 1)
        for (let j = 0; j < SAMPLES; j += 1) {
          const colour = colourAt(x + (i + 0.5) / SAMPLES, y + (j + 0.5) / SAMPLES);
          if (colour === null) continue;
          for (const [at, part] of colour.entries()) sum[at] += part;
          sum[3] += 255;
        }
      const covered = sum[3] / 255;
      rows.push(...sum.slice(0, 3).map(part => (covered === 0 ? 0 : Math.round(part / covered))));
      rows.push(Math.round(sum[3] / SAMPLES ** 2));
    }
  return rows;
}

/** The colour of a point; null outside the rounded square. */
function colourAt(x, y) {
  if (!isInside(x, y, 0, 0, SIDE, SIDE, 22)) return null;
  const coinciding = Math.abs(x - COINCIDING_AT) < 3;
  if (y >= 16 && y < 64) {
    const mark = Math.round((x - FIRST_MARK) / MAIN_DIVISION);
    const length = mark === 0 || mark === 5 ? 34 : 24;
    if (coinciding && y > 26) return COINCIDING;
    return isLine(x, FIRST_MARK, MAIN_DIVISION) && y > 64 - length ? LINE : MAIN;
  }
  if (y >= 66 && isInside(x, y, 4, 40, 150, 112, 8)) {
    const start = COINCIDING_AT - COINCIDING_LINE * VERNIER_DIVISION;
    const line = Math.round((x - start) / VERNIER_DIVISION);
    const length = line === 0 || line === 5 ? 30 : 22;
    if (coinciding && y < 66 + 30) return COINCIDING;
    return line >= 0 && isLine(x, start, VERNIER_DIVISION) && y < 66 + length ? LINE : VERNIER;
  }
  return GROUND;
}

function isLine(x, first, division) {
  const from = (x - first) / division;
  return Math.abs(from - Math.round(from)) * division < 1.6;
}

function isInside(x, y, left, top, right, bottom, radius) {
  if (x < left || x > right || y < top || y > bottom) return false;
  const dx = Math.max(left + radius - x, x - (right - radius), 0);
  const dy = Math.max(top + radius - y, y - (bottom - radius), 0);
  return dx * dx + dy * dy <= radius * radius;
}

/** A square of red, green, blue and opacity as a PNG file. */
function png(side, values) {
  const lines = Buffer.alloc(side * (side * 4 + 1));
  for (let y = 0; y < side; y += 1)
    Buffer.from(values.slice(y * side * 4, (y + 1) * side * 4)).copy(lines, y * (side * 4 + 1) + 1);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(side, 0);
  header.writeUInt32BE(side, 4);
  header.set([8, 6, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(lines, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const size = Buffer.alloc(4);
  size.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([size, body, sum]);
}
