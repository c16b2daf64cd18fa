import { writeFileSync } from "node:fs";
import { crc32, deflateSync } from "node:zlib";

/**
 * Draws the add-in's icon: three strands crossing into a plied yarn, dark on a light round ground.
 * @param {number} size
 * @param {Paint} [paint]
 */
function drawIcon(size, paint = colourAt) {
  const pixels = Buffer.alloc(size * (size * 4 + 1));
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const [red, green, blue, alpha] = sampled(paint, (x + 0.5) / size, (y + 0.5) / size, 1 / size);
      pixels.set([red, green, blue, alpha], y * (size * 4 + 1) + 1 + 4 * x);
    }
  }
  return png(size, pixels);
}

/**
 * @typedef {[red: number, green: number, blue: number, alpha: number]} Colour
 * @typedef {(x: number, y: number) => Colour} Paint the colour at a place, from 0 to 1 both ways
 */
const SUB_SAMPLES = 4;

/** @param {Paint} paint @param {number} x @param {number} y @param {number} pixel @returns {Colour} */
function sampled(paint, x, y, pixel) {
  let [red, green, blue, alpha] = [0, 0, 0, 0];
  for (let i = 0; i < SUB_SAMPLES; i++) {
    for (let j = 0; j < SUB_SAMPLES; j++) {
      const [r, g, b, a] = paint(
        x + ((i + 0.5) / SUB_SAMPLES - 0.5) * pixel,
        y + ((j + 0.5) / SUB_SAMPLES - 0.5) * pixel,
      );
      red += r * a;
      green += g * a;
      blue += b * a;
      alpha += a;
    }
  }
  if (alpha === 0) return NOTHING;
  const mean = (/** @type {number} */ sum) => Math.round(sum / alpha);
  return [mean(red), mean(green), mean(blue), Math.round((alpha * 255) / SUB_SAMPLES ** 2)];
}

/** @type {Colour} */
const GROUND = [244, 239, 228, 1];
/** @type {Colour[]} */
const STRANDS = [
  [38, 70, 83, 1],
  [176, 84, 60, 1],
  [122, 132, 60, 1],
];

/** @type {Paint} */
function colourAt(x, y) {
  if (Math.hypot(x - 0.5, y - 0.5) > 0.5) return NOTHING;
  // Each strand is a sine along the diagonal, a third of a turn behind the one before.
  const along = (x + y - 1) * 0.7071;
  const across = (x - y) * 0.7071;
  let nearest = GROUND;
  let height = -2;
  STRANDS.forEach((colour, strand) => {
    const phase = along * 11 + (strand * 2 * Math.PI) / 3;
    const inside = Math.abs(across - 0.15 * Math.sin(phase)) < 0.085 && Math.abs(along) < 0.44;
    if (inside && Math.cos(phase) > height) [nearest, height] = [colour, Math.cos(phase)];
  });
  return nearest;
}

/** @type {Colour} */
const WHITE = [255, 255, 255, 1];
/** @type {Colour} */
const NOTHING = [0, 0, 0, 0];

/**
 * The strands alone, in white.
 * @type {Paint}
 */
function outlineAt(x, y) {
  const colour = colourAt(x, y);
  return colour === GROUND || colour[3] === 0 ? NOTHING : WHITE;
}

/** @param {number} size @param {Buffer} pixels */
function png(size, pixels) {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([8, 6, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from("89504e470d0a1a0a", "hex"),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(pixels, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

/** @param {string} type @param {Buffer} data */
function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  body.copy(framed, 4);
  framed.writeUInt32BE(crc32(body), body.length + 4);
  return framed;
}

/** The sizes that the manifests name; 192 is for the package of the unified one. */
const ICON_SIZES = [16, 32, 64, 80, 192];

/** The package's second icon: white on nothing. */
const OUTLINE_SIZE = 32;

/** @param {string} folder */
export function writeIcons(folder) {
  for (const size of ICON_SIZES) writeFileSync(`${folder}/icon-${size}.png`, drawIcon(size));
  writeFileSync(`${folder}/outline-${OUTLINE_SIZE}.png`, drawIcon(OUTLINE_SIZE, outlineAt));
}
