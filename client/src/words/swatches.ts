/*
 * The field of colours to pick from: 64, without names, computed and therefore putting none forward.
 *
 * The same field as core/words/colour.py computes; tests/contract/swatch_cases.json is run against both.
 * OKLab and its matrices: Ottosson (2020); the curve is sRGB's (IEC 61966-2-1).
 */
import type { Colour } from "../wire/types";

type Triple = [number, number, number];
type Matrix = [Triple, Triple, Triple];

const ROOTS_FROM_LAB: Matrix = [
  [1.0, 0.3963377774, 0.2158037573],
  [1.0, -0.1055613458, -0.0638541728],
  [1.0, -0.0894841775, -1.2914855480],
];
const LINEAR_FROM_LMS: Matrix = [
  [4.0767416621, -3.3077115913, 0.2309699292],
  [-1.2684380046, 2.6097574011, -0.3413193965],
  [-0.0041960863, -0.7034186147, 1.7076147010],
];

/** Each row of the field: a lightness, and the chroma that no colour of the row exceeds. */
const ROWS: [number, number][] = [
  [0.9, 0.05],
  [0.8, 0.12],
  [0.66, 0.16],
  [0.52, 0.14],
  [0.38, 0.08],
];
const HUES = 12;
const GREYS = 4;
const HALVINGS = 20;
const ROUNDING = 1e-6;

/** A swatch and where it lies in the field: `row` and `column` count from 1; greys are the last row. */
export interface Swatch {
  colour: Colour;
  row: number;
  column: number;
  grey: boolean;
}

export const ROW_COUNT = ROWS.length;
export const HUE_COUNT = HUES;

/** The whole field, row by row, greys last. */
export function swatches(): Swatch[] {
  const field = ROWS.flatMap(([l, chroma], row) =>
    Array.from({ length: HUES }, (_, column) => {
      const turn = (2 * Math.PI * column) / HUES;
      const colour = intoGamut({ l, a: chroma * Math.cos(turn), b: chroma * Math.sin(turn) });
      return { colour, row: row + 1, column: column + 1, grey: false };
    }),
  );
  const greys = Array.from({ length: GREYS }, (_, step) => ({
    colour: { l: 0.2 + (0.75 * step) / (GREYS - 1), a: 0, b: 0 },
    row: ROWS.length + 1,
    column: step + 1,
    grey: true,
  }));
  return [...field, ...greys];
}

/** A colour as a screen shows it, #rrggbb; chroma is reduced where it must be. */
export function hexOf(colour: Colour): string {
  const parts = srgbOf(intoGamut(colour)).map((part) => Math.min(255, Math.max(0, Math.round(part * 255))));
  return `#${parts.map((part) => part.toString(16).padStart(2, "0")).join("")}`;
}

/** Whether two colours are the same pick. */
export function sameColour(a: Colour, b: Colour): boolean {
  return Math.hypot(a.l - b.l, a.a - b.a, a.b - b.b) < ROUNDING;
}

function intoGamut({ l, a, b }: Colour): Colour {
  const light = Math.min(1, Math.max(0, l));
  let [low, high] = [0, 1];
  if (shown({ l: light, a, b })) low = 1;
  else {
    for (let i = 0; i < HALVINGS; i += 1) {
      const middle = (low + high) / 2;
      if (shown({ l: light, a: a * middle, b: b * middle })) low = middle;
      else high = middle;
    }
  }
  return { l: light, a: a * low, b: b * low };
}

function shown(colour: Colour): boolean {
  return srgbOf(colour).every((part) => part >= -ROUNDING && part <= 1 + ROUNDING);
}

function srgbOf({ l, a, b }: Colour): Triple {
  const [long, middle, short] = times(ROOTS_FROM_LAB, [l, a, b]);
  const [red, green, blue] = times(LINEAR_FROM_LMS, [long ** 3, middle ** 3, short ** 3]);
  return [curved(red), curved(green), curved(blue)];
}

function times(matrix: Matrix, [x, y, z]: Triple): Triple {
  const row = ([i, j, k]: Triple) => i * x + j * y + k * z;
  return [row(matrix[0]), row(matrix[1]), row(matrix[2])];
}

function curved(part: number): number {
  return part <= 0.0031308 ? 12.92 * part : 1.055 * part ** (1 / 2.4) - 0.055;
}
