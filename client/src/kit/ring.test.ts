import { describe, expect, it } from "vitest";
import { flightMarks, ring, type Spot } from "./ring";

function nearest(spots: readonly Spot[]): number {
  let least = Infinity;
  spots.forEach((a, i) =>
    spots.slice(i + 1).forEach((b) => {
      least = Math.min(least, Math.hypot(a.x - b.x, a.y - b.y));
    }),
  );
  return least;
}

const TABLES: [string, number[]][] = [
  ["one bowl", [1]],
  ["five coffees, one bowl each", Array.from({ length: 5 }, () => 1)],
  ["eight coffees, three bowls each", Array.from({ length: 8 }, () => 3)],
  ["twelve coffees, five bowls each", Array.from({ length: 12 }, () => 5)],
  ["sixty positions of a shuffle", Array.from({ length: 60 }, () => 1)],
];

describe("the ring of cups", () => {
  it.each(TABLES)("never lets two cups overlap: %s", (_, bowls) => {
    for (const aspect of [1.7, 0.72]) expect(nearest(ring(bowls, aspect).cups)).toBeGreaterThan(1.01);
  });

  it.each(TABLES)("keeps every cup and tag inside the picture: %s", (_, bowls) => {
    for (const aspect of [1.7, 0.72]) {
      const { width, height, cups, tags } = ring(bowls, aspect);
      for (const spot of cups) {
        expect(spot.x).toBeGreaterThan(0.5);
        expect(spot.x).toBeLessThan(width - 0.5);
        expect(spot.y).toBeGreaterThan(0.5);
        expect(spot.y).toBeLessThan(height - 0.5);
      }
      const tagged = Math.max(...bowls) > 1; // a single bowl carries its own name
      for (const spot of tagged ? tags : []) expect(Math.min(spot.x, spot.y, width - spot.x, height - spot.y)).toBeGreaterThan(0.3);
    }
  });

  it("has one spot for every bowl and one tag for every place", () => {
    const { cups, tags } = ring([3, 3, 2], 1.7);
    expect(cups).toHaveLength(8);
    expect(tags).toHaveLength(3);
  });

  it("goes clockwise from the upper left on a wide table", () => {
    const { cups, width, height } = ring([1, 1, 1, 1, 1, 1, 1, 1], 1.7);
    const [first, second] = cups as [Spot, Spot];
    expect(first.x).toBeLessThan(width / 2);
    expect(first.y).toBeLessThan(height / 2);
    expect(second.x).toBeGreaterThan(first.x);
  });

  it.each(TABLES)("leaves room for a clock in the middle: %s", (_, bowls) => {
    for (const aspect of [1.7, 0.72]) expect(ring(bowls, aspect).free).toBeGreaterThan(1.5);
  });

  it("is even left and right", () => {
    const { cups, width } = ring([1, 1, 1, 1, 1], 1.7);
    const middle = cups.reduce((sum, cup) => sum + cup.x, 0) / cups.length;
    expect(middle).toBeCloseTo(width / 2, 6);
  });

  it("stands upright when the table is narrow", () => {
    const { width, height } = ring([1, 1, 1, 1, 1, 1], 0.72);
    expect(height).toBeGreaterThan(width);
  });
});

describe("flights on the table", () => {
  it("has a mark for each of two or more, none for one", () => {
    const layout = ring([1, 1, 1, 1], 1.75);
    expect(flightMarks(layout, [4])).toEqual([]);
    expect(flightMarks(layout, [2, 2])).toHaveLength(2);
  });

  it("names each flight on its own side of the table", () => {
    const layout = ring(Array.from({ length: 12 }, () => 1), 1.75);
    const [first, second] = flightMarks(layout, [6, 6]);
    const nearest = (mark: { x: number; y: number }) => {
      const far = layout.cups.map((cup) => Math.hypot(cup.x - mark.x, cup.y - mark.y));
      return far.indexOf(Math.min(...far));
    };
    expect(nearest(first!)).toBeLessThan(6);
    expect(nearest(second!)).toBeGreaterThanOrEqual(6);
  });
});
