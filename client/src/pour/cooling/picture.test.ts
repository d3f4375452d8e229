import { describe, expect, it } from "vitest";
import { aCooling } from "./cooling.testing";
import { pictureOf } from "./picture";

describe("the picture of the cooling", () => {
  it("puts 20 °C at the bottom, 90 at the top, and the last minute at the right", () => {
    const { degrees, hours } = pictureOf(aCooling());
    expect(degrees.find(({ value }) => value === 20)?.y).toBe(100);
    expect(degrees.find(({ value }) => value === 80)?.y).toBeCloseTo(100 / 7, 9);
    expect(hours.at(-1)).toEqual({ value: 60, x: 100 });
  });

  it("draws a round as a strip between its temperatures, and one moment without height", () => {
    const [strip] = pictureOf(aCooling()).strips;
    expect(strip?.top).toBeCloseTo((19 / 70) * 100, 9);
    expect(strip?.height).toBeCloseTo((11 / 70) * 100, 9);
    const [round] = aCooling().windows;
    const moment = pictureOf(aCooling({ windows: [{ ...round!, to_c: 71 }] })).strips[0];
    expect(moment?.height).toBe(0);
  });

  it("closes the band over the high curve and back along the low one", () => {
    const { band, line } = pictureOf(aCooling());
    expect(band.split("L")).toHaveLength(122);
    expect(band.endsWith("Z")).toBe(true);
    expect(line.startsWith("M0 ")).toBe(true);
  });

  it("sets a dot where a reading lies, and leaves out what is off the picture", () => {
    const [reading] = aCooling().readings;
    const { dots } = pictureOf(aCooling({ readings: [reading!, { ...reading!, minutes: 200 }] }));
    expect(dots).toHaveLength(1);
    expect(dots[0]?.x).toBeCloseTo(100 / 6, 9);
  });

  it("stays within its frame when a bowl is hotter or colder than the picture", () => {
    const { degrees } = pictureOf(aCooling({ high: [97], minutes: [0, 60], celsius: [92, 15], low: [90, 10] }));
    expect(Math.min(...degrees.map(({ y }) => y))).toBeGreaterThanOrEqual(0);
  });
});
