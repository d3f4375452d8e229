/* Calls: an act that comes due is spoken or felt, if somebody asked for that on this device. */
import { called } from "./moment";
import type { Cue } from "./clock";

/** What of a browser it takes; a device without a voice or a buzzer has none. */
export interface Voice {
  speak: ((text: string) => void) | null;
  vibrate: ((pattern: number[]) => void) | null;
}

type Shelf = Pick<Storage, "getItem" | "setItem">;

const PATTERN: Record<Cue["kind"], number[]> = { pour: [200], break: [120, 80, 120], skim: [80, 60, 80, 60, 80], taste: [400] };

export class Calls {
  spoken = $state(false);
  felt = $state(false);
  readonly canSpeak: boolean;
  readonly canVibrate: boolean;
  #voice: Voice;
  #shelf: Shelf;
  #before: number | null = null;

  constructor(voice: Voice, shelf: Shelf) {
    this.#voice = voice;
    this.#shelf = shelf;
    this.canSpeak = voice.speak !== null;
    this.canVibrate = voice.vibrate !== null;
    this.spoken = this.canSpeak && shelf.getItem("cupwright.calls.spoken") === "yes";
    this.felt = this.canVibrate && shelf.getItem("cupwright.calls.felt") === "yes";
  }

  /** Keep what was chosen. Browsers let a page speak only after a tap, so the tap itself says something. */
  choose(hello: string): void {
    this.#shelf.setItem("cupwright.calls.spoken", this.spoken ? "yes" : "no");
    this.#shelf.setItem("cupwright.calls.felt", this.felt ? "yes" : "no");
    if (this.spoken) this.#voice.speak?.(hello);
    if (this.felt) this.#voice.vibrate?.(PATTERN.pour);
  }

  /** Call out what has come due since the last time this was asked. */
  hear<Known extends Cue>(cues: readonly Known[], now: number, say: (cue: Known) => string): void {
    const due = this.#before === null ? [] : called(cues, this.#before, now);
    this.#before = now;
    const first = due[0];
    if (first === undefined) return;
    if (this.spoken) this.#voice.speak?.(due.map(say).join(". "));
    if (this.felt) this.#voice.vibrate?.(PATTERN[first.kind]);
  }
}

/** The voice of this browser. */
export function browserVoice(): Voice {
  const speech = "speechSynthesis" in window ? window.speechSynthesis : null;
  return {
    speak: speech && ((text) => speech.speak(Object.assign(new SpeechSynthesisUtterance(text), { lang: "en" }))),
    vibrate: "vibrate" in navigator ? (pattern) => void navigator.vibrate(pattern) : null,
  };
}
