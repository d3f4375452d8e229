/** Time gone by as minutes and seconds, "4:12". It rounds down: a second shows when it is over. */
export function asElapsed(milliseconds: number): string {
  const seconds = Math.floor(Math.max(0, milliseconds) / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
