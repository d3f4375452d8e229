/* Schedules of the shared cases, for tests. */
import cases from "../../../tests/contract/clock_cases.json";
import type { Act, Clock, Flight, Schedule } from "./clock";

type Name = keyof typeof cases.schedules;

export function laidCalled(name: string): Schedule {
  const { acts, flights, people, timing } = cases.schedules[name as Name];
  return {
    acts: acts.map(([kind, bowl, person, start_s, end_s]) => ({ kind, bowl, person, start_s, end_s }) as Act),
    flights: flights.map(([first, after, start_s]) => ({ first, after, start_s }) as Flight),
    people,
    timing,
  };
}

export function clockOf(started_at: number | null, pours: [number, number][] = [], done: [string, number, number][] = []): Clock {
  return { started_at, pours, done };
}
