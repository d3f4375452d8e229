import { describe, expect, it } from "vitest";
import type { MapPoint } from "../wire/words";
import { laid, nearest, sizeOf } from "./picture";

const SIZE = sizeOf(720);

const point = (id: string, x: number, y: number): MapPoint => ({ id, label: id, family: "f", own: false, colour: "", x, y });

describe("the picture of the map", () => {
  it("holds every point, both ways on one scale, the middle in the middle", () => {
    const [a, b, c] = laid({ points: [point("a", -2, 0), point("b", 2, 1), point("c", 0, 0)], stress: 0 }, SIZE);
    expect([c!.x, c!.y]).toEqual([SIZE.width / 2, SIZE.height / 2]);
    expect((b!.x - c!.x) / 2).toBeCloseTo(c!.y - b!.y);
    for (const one of [a!, b!]) {
      expect(one.x).toBeGreaterThan(0);
      expect(one.x).toBeLessThan(SIZE.width);
    }
  });

  it("is square on a narrow screen and lower than wide elsewhere", () => {
    expect(sizeOf(328)).toEqual({ width: 328, height: 328 });
    expect(sizeOf(640)).toEqual({ width: 640, height: 480 });
  });

  it("survives words that all lie on one point", () => {
    for (const one of laid({ points: [point("a", 0, 0), point("b", 0, 0)], stress: 0 }, SIZE)) expect(Number.isFinite(one.x)).toBe(true);
  });

  it("finds the nearest point within reach, and none beyond it", () => {
    const spots = [point("a", 100, 100), point("b", 110, 100)];
    expect(nearest(spots, 107, 101)).toBe("b");
    expect(nearest(spots, 200, 200)).toBeNull();
  });
});
