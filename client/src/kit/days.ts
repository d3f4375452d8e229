/* Dates and times as a person at the table says them. */

const DAY = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", year: "numeric" });
const DATE = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });
const TIME = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });

/** "Tue, 24 Nov 2026" of an ISO moment, in the time zone of this device. */
export function dayText(iso: string): string {
  return DAY.format(new Date(iso));
}

/** "24 Nov 2026" of a day without an hour, which is the same day in every time zone. */
export function dateText(day: string): string {
  return DATE.format(new Date(`${day}T00:00:00Z`));
}

/** "10:02" */
export function timeText(moment: string | number): string {
  return TIME.format(new Date(moment));
}

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

/** How long ago, roughly: for "last seen". */
export function agoText(then: number, now: number): string {
  const passed = Math.max(0, now - then);
  if (passed < 20 * SECOND) return "just now";
  if (passed < MINUTE) return "under a minute ago";
  if (passed < HOUR) return `${Math.floor(passed / MINUTE)} min ago`;
  return `at ${timeText(then)}`;
}
