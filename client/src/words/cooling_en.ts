/* The words of the cooling. */
import { fahrenheit } from "../pour/units";
import type { Cooling, Reached, Reading, Round } from "../wire/cooling";

/** "62 °C", or "62 °C (144 °F)" */
export const degrees = (celsius: number, both: boolean): string => {
  const metric = `${celsius.toFixed(0)}\u00a0°C`;
  return both ? `${metric} (${fahrenheit(celsius).toFixed(0)}\u00a0°F)` : metric;
};

const when = ({ minutes, low, high }: Reached): string => {
  if (minutes === null) return "not within six hours";
  return `${minutes.toFixed(0)}\u00a0min (${(low ?? 0).toFixed(0)} to ${high === null ? "over 360" : high.toFixed(0)})`;
};

export const coolingWords = {
  title: "Cooling",
  hint: "How warm a bowl is, counted from its own pour.",
  picture: (cooling: Cooling): string =>
    `Temperature against minutes: about ${degrees(cooling.start_c, false)} after the pour, ` +
    `${degrees(cooling.celsius[15] ?? cooling.start_c, false)} at 15 minutes, ` +
    `${degrees(cooling.celsius[30] ?? cooling.start_c, false)} at 30.`,
  minutes: "minutes after the pour",
  band: (cooling: Cooling): string =>
    cooling.readings.length === 0
      ? "The band holds a bowl like this 19 times in 20. Nothing was read yet: a thermometer narrows it."
      : `The band holds a bowl of this table 19 times in 20, after ${cooling.readings.length === 1 ? "one reading" : `${cooling.readings.length} readings`}.`,
  now: "the first bowl, now",
  round: (round: Round, both: boolean): string => {
    const from = degrees(round.from_c, both);
    if (round.to_c === null || round.to_c === round.from_c) return `about ${from}`;
    return `${from} to ${degrees(round.to_c, both)}`;
  },
  times: (round: Round): string =>
    round.ends === null || round.to_c === round.from_c ? when(round.starts) : `${when(round.starts)} until ${when(round.ends)}`,
  read: "Take a reading",
  readHint: "Stir once, hold the probe in the middle of the bowl, wait until it stands. A second one at about half an hour tells most.",
  bowl: "Bowl",
  shows: "It shows",
  note: "Note it",
  readings: "Readings",
  reading: ({ celsius, minutes }: Reading, name: string, both: boolean): string => {
    const warm = both ? `${celsius.toFixed(1)}\u00a0°C (${fahrenheit(celsius).toFixed(0)}\u00a0°F)` : `${celsius.toFixed(1)}\u00a0°C`;
    return `${name}: ${warm} at ${minutes.toFixed(0)}\u00a0min`;
  },
  drop: "Take back",
  dropLabel: (name: string): string => `Take back the reading of ${name}`,
  basis: "Where the figures of the vessel come from",
};
