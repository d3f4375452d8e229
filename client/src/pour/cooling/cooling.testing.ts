/* A cooling for tests: 80 °C falling by a degree a minute, 5 K either way, one round and one reading. */
import type { Cooling } from "../../wire/cooling";

export function aCooling(changes: Partial<Cooling> = {}): Cooling {
  const minutes = Array.from({ length: 61 }, (_, minute) => minute);
  return {
    vessel: "Porcelain bowl",
    basis: "assumed",
    start_c: 80,
    room_c: 22,
    level: 0.95,
    minutes,
    celsius: minutes.map((minute) => 80 - minute),
    low: minutes.map((minute) => 75 - minute),
    high: minutes.map((minute) => 85 - minute),
    windows: [
      {
        title: "Acidity",
        from_c: 71,
        to_c: 60,
        starts: { minutes: 9, low: 4, high: 14 },
        ends: { minutes: 20, low: 15, high: null },
      },
    ],
    readings: [{ bowl: 1, place: "538", number: 1, minutes: 10, celsius: 70, at: 1_000 }],
    caution: "",
    doubt: "",
    ...changes,
  };
}
