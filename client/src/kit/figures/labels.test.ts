import { describe, expect, it } from "vitest";
import { placeLabels } from "./labels";

const ROOM = { width: 200, height: 100, size: 10, gap: 6 };
const point = (id: string, x: number, y: number, label = "plum") => ({ id, label, x, y });

describe("labels of a picture", () => {
  it("stand right of their points where there is room", () => {
    expect(placeLabels([point("a", 20, 50)], ROOM)).toEqual([{ ...point("a", 26, 50), anchor: "start" }]);
  });

  it("stand left of a point at the right edge", () => {
    const [placed] = placeLabels([point("a", 195, 50)], ROOM);
    expect(placed?.anchor).toBe("end");
  });

  it("never lie over each other, and the first ones given go first", () => {
    const crowd = Array.from({ length: 20 }, (_, at) => point(`p${at}`, 100, 50, "brown sugar"));
    const placed = placeLabels(crowd, ROOM);
    expect(placed.map((one) => one.id)).toEqual(["p0", "p1", "p2", "p3"]);
    expect(new Set(placed.map((one) => `${one.anchor} ${one.y}`)).size).toBe(4);
  });

  it("do not cover a dot where they can help it", () => {
    const [placed] = placeLabels([point("a", 100, 50)], ROOM, [point("b", 115, 50)]);
    expect(placed?.anchor).toBe("end");
    const [pressed] = placeLabels([point("a", 20, 8)], { ...ROOM, height: 16 }, [point("b", 36, 8)]);
    expect(pressed?.anchor).toBe("start");
  });

  it("cover the fewest dots where they must cover some", () => {
    const dots = [point("b", 112, 50), point("c", 118, 50), point("d", 88, 50), point("e", 100, 36), point("f", 104, 36)];
    const [placed] = placeLabels([point("a", 100, 50)], { ...ROOM, height: 60 }, dots);
    expect(placed?.anchor).toBe("end");
  });

  it("are left out where they would stick out of the picture", () => {
    expect(placeLabels([point("a", 100, 50, "a label that is longer than the picture is wide")], ROOM)).toEqual([]);
  });
});
