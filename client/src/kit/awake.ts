/* Keep the screen on while a clock runs. Only on secure pages (and this machine's own address); elsewhere nothing. */

/** Ask for it, again each time the page comes back into sight. Returns how to let go. */
export function keepAwake(): () => void {
  let lock: WakeLockSentinel | null = null;
  let wanted = true;

  const ask = async () => {
    if (!wanted || document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
    // Refused when the battery is low: the clock is right all the same.
    lock = await navigator.wakeLock.request("screen").catch(() => null);
    if (!wanted) void lock?.release();
  };

  void ask();
  document.addEventListener("visibilitychange", ask);
  return () => {
    wanted = false;
    document.removeEventListener("visibilitychange", ask);
    void lock?.release();
  };
}
