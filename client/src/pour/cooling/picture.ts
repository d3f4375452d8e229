/* The picture of a cooling bowl in percent of its width and height: a band against minutes, rounds, readings. */
import { scaleLinear } from "d3-scale";
import type { Cooling } from "../../wire/cooling";

export interface Strip {
  title: string;
  top: number;
  height: number;
}

export interface Picture {
  band: string;
  line: string;
  /** rounds that last, as strips between two temperatures; a single moment is a strip without height */
  strips: Strip[];
  dots: { x: number; y: number; at: number; bowl: number }[];
  hours: { value: number; x: number }[];
  degrees: { value: number; y: number }[];
  x: (minutes: number) => number;
}

const LOWEST_C = 20;

export function pictureOf(cooling: Cooling): Picture {
  const last = cooling.minutes.at(-1) ?? 1;
  const hottest = Math.max(90, ...cooling.high);
  const x = scaleLinear([0, last], [0, 100]).clamp(true);
  const y = scaleLinear([LOWEST_C, hottest], [100, 0]).clamp(true);
  const points = (curve: readonly number[]): string[] => curve.map((c, i) => `${x(cooling.minutes[i] ?? 0)} ${y(c)}`);
  return {
    band: `M${[...points(cooling.high), ...points(cooling.low).reverse()].join("L")}Z`,
    line: `M${points(cooling.celsius).join("L")}`,
    strips: cooling.windows.map(({ title, from_c, to_c }) => {
      const top = y(from_c);
      return { title, top, height: y(to_c ?? LOWEST_C) - top };
    }),
    dots: cooling.readings
      .filter(({ minutes }) => minutes <= last)
      .map(({ minutes, celsius, at, bowl }) => ({ x: x(minutes), y: y(celsius), at, bowl })),
    hours: x.ticks(6).map((value) => ({ value, x: x(value) })),
    degrees: y.ticks(4).map((value) => ({ value, y: y(value) })),
    x,
  };
}
