/* Where labels of a picture fit: beside their points, in the order of their weight, none over another. */

export interface Spot {
  x: number;
  y: number;
}

export interface Labelled extends Spot {
  id: string;
  label: string;
}

export interface Placed extends Labelled {
  anchor: "start" | "end" | "middle";
}

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** The picture's size and its letters, all in its own units. `gap` keeps a label off its point. */
export interface Room {
  width: number;
  height: number;
  size: number;
  gap: number;
}

// Of the typeface's mean letter; a little too wide is better than too narrow.
const LETTER = 0.56;
const DOT = 3;
const HALF = 0.6; // of a line, from its middle

/**
 * Those labels that fit, the first ones given first. A label stands right of its point, else left, above, below;
 * where it covers the fewest of `dots`.
 */
export function placeLabels(points: readonly Labelled[], room: Room, dots: readonly Spot[] = []): Placed[] {
  const covered = dots.map(({ x, y }) => ({ left: x - DOT, right: x + DOT, top: y - DOT, bottom: y + DOT }));
  const taken: Box[] = [];
  const placed: Placed[] = [];
  for (const point of points) {
    const free = ways(point, room).filter(({ box }) => inside(box, room) && !taken.some((other) => overlap(box, other)));
    const hidden = free.map(({ box }) => covered.filter((dot) => overlap(box, dot)).length);
    const fits = free[hidden.indexOf(Math.min(...hidden))];
    if (fits === undefined) continue;
    taken.push(fits.box);
    placed.push(fits.placed);
  }
  return placed;
}

function ways(point: Labelled, { size, gap }: Room): { box: Box; placed: Placed }[] {
  const width = point.label.length * size * LETTER;
  const right = { ...point, x: point.x + gap, anchor: "start" as const };
  const left = { ...point, x: point.x - gap, anchor: "end" as const };
  const above = { ...point, y: point.y - gap - size * HALF, anchor: "middle" as const };
  const below = { ...point, y: point.y + gap + size * HALF, anchor: "middle" as const };
  const from = { start: 0, end: 1, middle: 0.5 };
  return [right, left, above, below].map((placed) => {
    const at = placed.x - width * from[placed.anchor];
    return { placed, box: { left: at, right: at + width, top: placed.y - size * HALF, bottom: placed.y + size * HALF } };
  });
}

function inside(box: Box, room: Room): boolean {
  return box.left >= 0 && box.right <= room.width && box.top >= 0 && box.bottom <= room.height;
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
