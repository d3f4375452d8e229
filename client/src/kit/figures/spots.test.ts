import { describe, expect, it } from "vitest";
import { drawnMap, type SpotRow } from "./spots";

const row = (label: string, x: number, y: number, role = "coffee", ring = 0): SpotRow => ({ label, x, y, role, ring });

describe("a map", () => {
  it("has one unit as long across as up, and up is up", () => {
    const map = drawnMap([row("A", 0, 0), row("B", 2, 0), row("C", 0, 1)], 400);
    const [a, b, c] = map.spots;
    expect((b?.x ?? 0) - (a?.x ?? 0)).toBeCloseTo(2 * ((a?.y ?? 0) - (c?.y ?? 0)));
    expect(c?.y).toBeLessThan(a?.y ?? 0);
  });

  it("keeps every spot and corner inside", () => {
    const rows = [row("A", -50, 3), row("B", 80, -4), ...[1, 2, 3].map((ring) => row("A", -60 + ring, ring, "region", ring))];
    const map = drawnMap(rows, 320);
    for (const spot of map.spots) {
      expect(spot.x).toBeGreaterThan(0);
      expect(spot.x).toBeLessThan(320);
      expect(spot.y).toBeGreaterThan(0);
      expect(spot.y).toBeLessThan(map.height);
    }
  });

  it("draws a region along its ring, whatever the order of its rows", () => {
    const corners = [row("A", 1, 0, "region", 2), row("A", 0, 0, "region", 1), row("A", 1, 1, "region", 3)];
    const back = drawnMap([...corners].reverse(), 300);
    expect(drawnMap(corners, 300).regions).toEqual(back.regions);
    expect(back.regions[0]?.path.split("L")).toHaveLength(3);
    expect(back.spots).toEqual([]);
  });

  it("names coffees before words", () => {
    const crowd = Array.from({ length: 30 }, (_, at) => row(`word ${at}`, 0.001 * at, 0, "word"));
    const map = drawnMap([...crowd, row("Oru Hill", 0, 0), row("far", 1, 1, "word")], 300);
    expect(map.labels.map((label) => label.label)).toContain("Oru Hill");
  });

  it("draws a single spot in the middle of something", () => {
    const map = drawnMap([row("A", 0, 0)], 300);
    expect(map.spots[0]).toMatchObject({ x: 150 });
  });
});
