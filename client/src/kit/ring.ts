/* Where the cups stand, seen from above: along the rim of a table with round ends, in pouring order, clockwise
   from the upper left. One unit is the width of a cup. */

const PITCH = 1.16; // from the middle of one cup to the next of the same place
const GAP = 0.34; // more between two places
const TAG = 1.12; // from a cup's middle out to the place's tag
const RIM = 1.9; // from a cup's middle out to the edge of the picture, with tags between
const BARE_RIM = 0.86; // the same where the cups carry their own names
const FREE_FROM = 0.72; // from the middle of an inner cup to where something else may stand
const LEAST_PATH = 12.5; // so that few cups do not stand on a tray
const TWO_DEEP_FROM = 25; // bowls; above it the bowls of a place stand in two rows

export interface Spot {
  x: number;
  y: number;
}

/** All coordinates in cup widths from the upper left of the picture. */
export interface Ring {
  width: number;
  height: number;
  cups: Spot[];
  tags: Spot[];
  /** how wide the table top is between the cups */
  free: number;
}

interface Path {
  straight: number;
  radius: number;
  wide: boolean;
}

interface Station extends Spot {
  /** unit vector outwards */
  outX: number;
  outY: number;
}

function lengthOf({ straight, radius }: Path): number {
  return 2 * straight + 2 * Math.PI * radius;
}

/** A path with round ends of at least that length; `aspect` is its width by its height. */
function pathOf(length: number, aspect: number): Path {
  const stretch = Math.max(aspect, 1 / aspect) - 1;
  const breadth = length / (2 * stretch + Math.PI);
  return { straight: breadth * stretch, radius: breadth / 2, wide: aspect >= 1 };
}

/** The point `s` along a lying path, clockwise from the left end of its upper side; the middle is (0, 0). */
function lying({ straight, radius }: Path, s: number): Station {
  const bend = Math.PI * radius;
  if (s < straight) return { x: s - straight / 2, y: -radius, outX: 0, outY: -1 };
  if (s < straight + bend) return onBend(straight / 2, radius, (s - straight) / radius - Math.PI / 2);
  if (s < 2 * straight + bend) return { x: straight / 2 - (s - straight - bend), y: radius, outX: 0, outY: 1 };
  return onBend(-straight / 2, radius, (s - 2 * straight - bend) / radius + Math.PI / 2);
}

function onBend(middle: number, radius: number, angle: number): Station {
  const [outX, outY] = [Math.cos(angle), Math.sin(angle)];
  return { x: middle + radius * outX, y: radius * outY, outX, outY };
}

/** The same for a path that may stand upright; there it starts at the top of the right-hand side. */
function stationAt(path: Path, s: number): Station {
  const total = lengthOf(path);
  const point = lying(path, ((s % total) + total) % total);
  if (path.wide) return point;
  return { x: -point.y, y: point.x, outX: -point.outY, outY: point.outX };
}

function columnsOf(bowls: number, rows: number): number {
  return Math.ceil(bowls / rows);
}

/** Middle of each place along the path, evenly spread over what is left. */
function middles(columns: readonly number[], total: number): number[] {
  const used = columns.map((count) => count * PITCH + GAP);
  const slack = (total - used.reduce((sum, one) => sum + one, 0)) / columns.length;
  let s = 0;
  return used.map((own) => {
    const middle = s + (own + slack) / 2;
    s += own + slack;
    return middle;
  });
}

/** Where the first place begins: at the upper left, so that the ring is even about the middle of the upper side. */
function firstOffset(path: Path, places: number): number {
  const topMiddle = path.wide ? path.straight / 2 : (-Math.PI * path.radius) / 2;
  const placesLeftOfIt = Math.round(places / 2) / 2;
  return topMiddle - (placesLeftOfIt * lengthOf(path)) / places;
}

/**
 * Spots for the bowls of each place.
 * `bowls` is how many stand at each place, in order; `aspect` is width by height of the table.
 */
export function ring(bowls: readonly number[], aspect: number): Ring {
  const total = bowls.reduce((sum, one) => sum + one, 0);
  const rows = total >= TWO_DEEP_FROM && Math.max(...bowls) > 1 ? 2 : 1;
  const columns = bowls.map((count) => columnsOf(count, rows));
  const needed = columns.reduce((sum, count) => sum + count * PITCH + GAP, 0);
  const path = pathOf(Math.max(needed, LEAST_PATH), aspect);
  const depth = (rows - 1) * PITCH;
  const rim = path.radius + depth + (Math.max(...bowls) > 1 ? RIM : BARE_RIM);
  const halfWidth = (path.wide ? path.straight / 2 : 0) + rim;
  const halfHeight = (path.wide ? 0 : path.straight / 2) + rim;
  const shifted = (spot: Spot): Spot => ({ x: spot.x + halfWidth, y: spot.y + halfHeight });

  const cups: Spot[] = [];
  const tags: Spot[] = [];
  middles(columns, lengthOf(path)).forEach((middle, place) => {
    const at = middle + firstOffset(path, bowls.length);
    cups.push(...cluster(path, at, bowls[place] ?? 0, columns[place] ?? 1, depth).map(shifted));
    tags.push(shifted(outward(stationAt(path, at), depth + TAG)));
  });
  const free = 2 * ((path.wide ? path.straight / 2 : 0) + path.radius - FREE_FROM);
  return { width: 2 * halfWidth, height: 2 * halfHeight, cups, tags, free };
}

function outward(station: Station, distance: number): Spot {
  return { x: station.x + station.outX * distance, y: station.y + station.outY * distance };
}

/** The bowls of one place: the first row outermost, along the path. */
function cluster(path: Path, middle: number, bowls: number, columns: number, depth: number): Spot[] {
  return Array.from({ length: bowls }, (_, index) => {
    const [column, row] = [index % columns, Math.floor(index / columns)];
    const s = middle + (column - (columns - 1) / 2) * PITCH;
    return outward(stationAt(path, s), depth - row * PITCH);
  });
}

/** Where a flight is named, and where the line to the next one is drawn. */
export interface FlightMark extends Spot {
  from: Spot;
  to: Spot;
}

/** Marks of flights that have so many cups each, in order; a table of one flight has none. */
export function flightMarks(layout: Ring, cups: readonly number[]): FlightMark[] {
  if (cups.length < 2) return [];
  const middle = { x: layout.width / 2, y: layout.height / 2 };
  let first = 0;
  return cups.map((count) => {
    const own = layout.cups.slice(first, first + count);
    first += count;
    const [last, next] = [own.at(-1) ?? middle, layout.cups[first % layout.cups.length] ?? middle];
    const gap = { x: (last.x + next.x) / 2, y: (last.y + next.y) / 2 };
    return { ...between(middle, meanOf(own, middle), 0.5), from: between(middle, gap, 0.72), to: between(middle, gap, 1.16) };
  });
}

function between(a: Spot, b: Spot, share: number): Spot {
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

function meanOf(spots: readonly Spot[], none: Spot): Spot {
  if (spots.length === 0) return none;
  const sum = spots.reduce((all, spot) => ({ x: all.x + spot.x, y: all.y + spot.y }), { x: 0, y: 0 });
  return { x: sum.x / spots.length, y: sum.y / spots.length };
}
