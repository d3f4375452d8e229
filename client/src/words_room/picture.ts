/* The map in the units of its picture. */
import type { MapPoint, WordMap } from "../wire/words";

/** Of the picture, in its own units, which are the screen's. */
export interface Size {
  width: number;
  height: number;
}

/** The size of a picture that is so wide: lower than wide where there is room. */
export function sizeOf(width: number): Size {
  return { width, height: Math.round(width * (width < 500 ? 1 : 0.75)) };
}

const MARGIN = 30;
// A point farther from the pointer than that is not meant.
const REACH = 22;

/** The points scaled alike both ways, so that they fill the picture. */
export function laid({ points }: WordMap, size: Size): MapPoint[] {
  const wide = Math.max(...points.map((point) => Math.abs(point.x)), 1e-9);
  const high = Math.max(...points.map((point) => Math.abs(point.y)), 1e-9);
  const scale = Math.min((size.width / 2 - MARGIN) / wide, (size.height / 2 - MARGIN) / high);
  return points.map((point) => ({
    ...point,
    x: size.width / 2 + scale * point.x,
    y: size.height / 2 - scale * point.y,
  }));
}

/** The id of the point that is meant at a place of the picture, or null. */
export function nearest(points: readonly MapPoint[], x: number, y: number): string | null {
  let best: MapPoint | null = null;
  let least = REACH ** 2;
  for (const point of points) {
    const apart = (point.x - x) ** 2 + (point.y - y) ** 2;
    if (apart <= least) [best, least] = [point, apart];
  }
  return best?.id ?? null;
}
