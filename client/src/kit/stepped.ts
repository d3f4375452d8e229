export interface Bounds {
  min: number;
  max: number;
  step: number;
}

function decimals(step: number): number {
  return (String(step).split(".")[1] ?? "").length;
}

/** The next multiple of the step in that direction, within the bounds; an empty field starts at the nearest bound to 0. */
export function stepped(value: number | null, direction: 1 | -1, { min, max, step }: Bounds): number {
  if (value === null || !Number.isFinite(value)) return Math.min(Math.max(0, min), max);
  const steps = value / step;
  // 0.3 / 0.1 is 2.9999…: without the tolerance the key would seem dead.
  const next = direction === 1 ? Math.floor(steps + 1e-9) + 1 : Math.ceil(steps - 1e-9) - 1;
  return Math.min(Math.max(Number((next * step).toFixed(decimals(step))), min), max);
}
