/**
 * The table's clock, computed from time stamps alone: a reload or a sleeping tab cannot make it drift.
 *
 * The same rules as src/cupwright/core/pour/run_sheet.py (docs/methods/run_sheet.md says why);
 * tests/contract/clock_cases.json is run against both. Names are those of the wire. All times are
 * milliseconds of the server's clock since 1970, seconds of a schedule count from the first pour.
 */

export type CueKind = "pour" | "break" | "skim" | "taste";

/** Marks: [bowl in pouring order from 0, time of its real pour] and [what was done, bowl, when]; "aside": set aside. */
export interface Clock {
  started_at: number | null;
  pours: readonly (readonly [number, number])[];
  done: readonly (readonly [string, number, number])[];
}

/** Seconds after a bowl's own pour. */
export interface Timing {
  break_earliest_s: number;
  break_latest_s: number;
  taste_from_s: number;
  taste_to_s: number;
  /** How much later than the protocol's the first taste is, where the plan wants it cooler. */
  put_off_s: number;
}

/** One person's act on one bowl, both from 0. */
export interface Act {
  kind: CueKind;
  bowl: number;
  person: number;
  start_s: number;
  end_s: number;
}

/** Bowls `first` up to, not including, `after`. */
export interface Flight {
  first: number;
  after: number;
  start_s: number;
}

/** As the server laid it: acts in order of time. */
export interface Schedule {
  acts: readonly Act[];
  flights: readonly Flight[];
  people: number;
  timing: Timing;
}

/** `due` to `ends` is the act, `earliest` and `latest` are for its beginning; `person` is null for a taste. */
export interface Cue {
  kind: CueKind;
  bowl: number;
  due: number;
  earliest: number;
  latest: number;
  ends: number;
  person: number | null;
  done: boolean;
}

interface Marks {
  pours: ReadonlyMap<number, number>;
  done: ReadonlyMap<string, number>;
}

/** A break or skim to be laid: its act as planned, now for `bowl`; moments in ms. */
interface Slot {
  act: Act;
  bowl: number;
  earliest: number;
  latest: number;
  wish: number;
  marked: number | undefined;
  length: number;
}

const PAUSE_MS = 300_000;
// Which of two acts comes first when both are due at one moment.
const RANK: Record<CueKind, number> = { pour: 0, break: 1, skim: 2, taste: 3 };

const lengthOf = (act: Act): number => (act.end_s - act.start_s) * 1000;
const markOf = (kind: string, bowl: number): string => `${kind}/${bowl}`;

/** Everything that is due, in order of time; empty while the clock is not started. */
export function runSheet(laid: Schedule, clock: Clock): Cue[] {
  if (clock.started_at === null) return [];
  const marks: Marks = {
    pours: new Map(clock.pours),
    done: new Map(clock.done.map(([kind, bowl, at]) => [markOf(kind, bowl), at])),
  };
  const cues: Cue[] = [];
  let planned = clock.started_at;
  laid.flights.forEach((flight, number) => {
    const start = number === 0 ? planned : startOf(laid, flight, marks, planned);
    const ofFlight = flightCues(laid, flight, start, marks);
    cues.push(...ofFlight);
    const tastes = ofFlight.filter((cue) => cue.kind === "taste").map((cue) => cue.latest);
    planned = (tastes.length > 0 ? Math.max(...tastes) : start) + PAUSE_MS;
  });
  return cues.sort((a, b) => a.due - b.due || RANK[a.kind] - RANK[b.kind] || a.bowl - b.bowl);
}

/** How much too late an act begins, in ms; 0 if it does not. */
export function lateBy(cue: Cue): number {
  return Math.max(0, cue.due - cue.latest);
}

/** Breaks and skims that begin, or were done, too late for their bowl. */
export function unkept(cues: readonly Cue[]): Cue[] {
  return cues.filter((cue) => lateBy(cue) > 0 && (cue.kind === "break" || cue.kind === "skim"));
}

const actsOf = (laid: Schedule, flight: Flight): Act[] =>
  laid.acts.filter(({ bowl }) => flight.first <= bowl && bowl < flight.after);

/** When a later flight began: by its first marked pour, or as planned. */
function startOf(laid: Schedule, flight: Flight, marks: Marks, planned: number): number {
  const began = actsOf(laid, flight).flatMap((act) => {
    const at = act.kind === "pour" ? marks.pours.get(act.bowl) : undefined;
    return at === undefined ? [] : [at - (act.start_s - flight.start_s) * 1000];
  });
  return began.length > 0 ? Math.min(...began) : planned;
}

function flightCues(laid: Schedule, flight: Flight, start: number, marks: Marks): Cue[] {
  const acts = actsOf(laid, flight).filter(({ bowl }) => !marks.done.has(markOf("aside", bowl)));
  const pours = pourTimes(acts, flight, start, marks);
  const planned = slotsOf(acts, pours, laid.timing, marks);
  // Whoever has fallen behind may have to break first and skim when all is broken.
  const isSkim = (slot: Slot): number => Number(slot.act.kind === "skim");
  const crustFirst = [...planned].sort((a, b) => isSkim(a) - isSkim(b));
  const ways = [planned, crustFirst].map((slots) => slotCues(acts, pours, slots));
  const late = ways.map((cues) => cues.reduce((sum, cue) => sum + lateBy(cue), 0));
  return [
    ...acts.filter((act) => act.kind === "pour").map((act) => pourCue(act, pours, marks)),
    ...ways[late[1]! < late[0]! ? 1 : 0]!,
    ...[...pours].map(([bowl, at]) => tasteCue(bowl, at, laid.timing)),
  ];
}

/** The moment of each pour: as marked, or as planned after the last one of the same person. */
function pourTimes(acts: readonly Act[], flight: Flight, start: number, marks: Marks): Map<number, number> {
  const pours = new Map<number, number>();
  const planned = plannedPours(acts);
  const busy = new Map<number, number>();
  const last = new Map<number, [number, number]>();
  for (const act of acts) {
    let begin: number;
    if (act.kind === "pour") {
      const [moment, before] = last.get(act.person) ?? [start, flight.start_s];
      const follows = moment + (act.start_s - before) * 1000;
      begin = marks.pours.get(act.bowl) ?? Math.max(follows, busy.get(act.person) ?? follows);
      pours.set(act.bowl, begin);
      last.set(act.person, [begin, act.start_s]);
    } else {
      const marked = marks.done.get(markOf(act.kind, act.bowl));
      const wish = pours.get(act.bowl)! + (act.start_s - planned.get(act.bowl)!) * 1000;
      begin = marked === undefined ? Math.max(wish, busy.get(act.person) ?? wish) : marked - lengthOf(act);
    }
    busy.set(act.person, begin + lengthOf(act));
  }
  return pours;
}

const plannedPours = (acts: readonly Act[]): Map<number, number> =>
  new Map(acts.filter((act) => act.kind === "pour").map((act) => [act.bowl, act.start_s]));

/** Breaks and skims, in the order planned, for the bowls in the order in which they were poured. */
function slotsOf(acts: readonly Act[], pours: Map<number, number>, timing: Timing, marks: Marks): Slot[] {
  const order = [...pours.keys()].sort((a, b) => pours.get(a)! - pours.get(b)! || a - b);
  const waiting = { break: [...order], skim: [...order] };
  const planned = plannedPours(acts);
  const slots: Slot[] = [];
  for (const act of acts) {
    if (act.kind !== "break" && act.kind !== "skim") continue;
    const bowl = waiting[act.kind].shift()!;
    const poured = pours.get(bowl)!;
    const isBreak = act.kind === "break";
    slots.push({
      act,
      bowl,
      earliest: isBreak ? poured + timing.break_earliest_s * 1000 : poured,
      latest: poured + (isBreak ? timing.break_latest_s * 1000 : timing.taste_from_s * 1000 - lengthOf(act)),
      wish: poured + (act.start_s - planned.get(act.bowl)!) * 1000,
      marked: marks.done.get(markOf(act.kind, bowl)),
      length: lengthOf(act),
    });
  }
  return slots;
}

type Fixed = readonly (readonly [Act, number])[];

/** As wished, in haste where a later one needs it, when its person is free. */
function slotCues(acts: readonly Act[], pours: Map<number, number>, slots: readonly Slot[]): Cue[] {
  const fixed: Fixed = acts.filter((act) => act.kind === "pour").map((act) => [act, pours.get(act.bowl)!]);
  const hasty = forward(fixed, slots, slots.map((slot) => slot.earliest));
  const reachable = slots.map((slot, index) => (hasty[index]! <= slot.latest ? slot.latest : Infinity));
  const needed = backward(fixed, slots, reachable);
  const begins = forward(fixed, slots, slots.map((slot, index) => Math.min(slot.wish, needed[index]!)));
  const broken = new Map<number, number>();
  slots.forEach((slot, index) => {
    if (slot.act.kind === "break") broken.set(slot.bowl, begins[index]! + slot.length);
  });
  return slots.map((slot, index) => slotCue(slot, begins[index]!, broken));
}

/** Each slot at its wish or when it can be: its person free, its bowl steeped, broken, in its turn. */
function forward(fixed: Fixed, slots: readonly Slot[], wishes: readonly number[]): number[] {
  const broken = new Map<number, number>();
  const busy = new Map<number, number>();
  const pours = [...fixed];
  let turn = -Infinity;
  return slots.map((slot, index) => {
    while (pours.length > 0 && pours[0]![0].start_s < slot.act.start_s) {
      const [act, at] = pours.shift()!;
      busy.set(act.person, Math.max(busy.get(act.person) ?? at, at + lengthOf(act)));
    }
    const isBreak = slot.act.kind === "break";
    const after = [wishes[index]!, slot.earliest, broken.get(slot.bowl) ?? slot.earliest];
    let begin = Math.max(...after, busy.get(slot.act.person) ?? -Infinity, isBreak ? turn : -Infinity);
    if (slot.marked !== undefined) begin = slot.marked - slot.length;
    if (isBreak) {
      broken.set(slot.bowl, begin + slot.length);
      turn = begin;
    }
    busy.set(slot.act.person, begin + slot.length);
    return begin;
  });
}

/** The latest beginning of each slot with which all that follow it can still be kept. */
function backward(fixed: Fixed, slots: readonly Slot[], latest: readonly number[]): number[] {
  const needed = [...latest];
  const byPerson = new Map<number, number>();
  const byBowl = new Map<number, number>();
  const pours = [...fixed];
  let turn = Infinity;
  for (let index = slots.length - 1; index >= 0; index -= 1) {
    const slot = slots[index]!;
    while (pours.length > 0 && pours.at(-1)![0].start_s >= slot.act.start_s) {
      const [act, at] = pours.pop()!;
      byPerson.set(act.person, at);
    }
    if (slot.marked !== undefined) continue;
    const { person } = slot.act;
    let need = Math.min(latest[index]!, (byPerson.get(person) ?? Infinity) - slot.length);
    if (slot.act.kind === "break") {
      need = Math.min(need, turn, (byBowl.get(slot.bowl) ?? Infinity) - slot.length);
      turn = need;
    } else byBowl.set(slot.bowl, need);
    byPerson.set(person, need);
    needed[index] = need;
  }
  return needed;
}

function pourCue(act: Act, pours: Map<number, number>, marks: Marks): Cue {
  const at = pours.get(act.bowl)!;
  const done = marks.pours.has(act.bowl);
  return { kind: "pour", bowl: act.bowl, due: at, earliest: at, latest: at, ends: at + lengthOf(act), person: act.person, done };
}

function slotCue(slot: Slot, begin: number, broken: Map<number, number>): Cue {
  const { kind, person } = slot.act;
  const earliest = kind === "skim" ? (broken.get(slot.bowl) ?? slot.earliest) : slot.earliest;
  const done = slot.marked !== undefined;
  return { kind, bowl: slot.bowl, due: begin, earliest, latest: slot.latest, ends: begin + slot.length, person, done };
}

function tasteCue(bowl: number, poured: number, timing: Timing): Cue {
  const due = poured + (timing.taste_from_s + timing.put_off_s) * 1000;
  const latest = poured + (timing.taste_to_s + timing.put_off_s) * 1000;
  return { kind: "taste", bowl, due, earliest: due, latest, ends: latest, person: null, done: false };
}

/** The cues that may be acted on now: inside their own window, or, for a pour, within its own seconds. */
export function openCues<Known extends Cue>(cues: readonly Known[], now: number): Known[] {
  const closes = (cue: Cue): number => (cue.kind === "pour" ? cue.ends - 1 : Math.max(cue.latest, cue.ends));
  return cues.filter((cue) => !cue.done && cue.earliest <= now && now <= closes(cue));
}

/**
 * How far the server's clock is ahead of this device's (ms), from one answer of the server.
 *
 * Error: at most half of the time the answer took. Add it to `Date.now()` to get the time of the table.
 */
export function serverAhead(serverNow: number, asked: number, answered: number): number {
  return serverNow - (asked + answered) / 2;
}

/**
 * A countdown as minutes and seconds, "4:00". It rounds up, so 0:00 means now; below it the lateness, "−0:05".
 */
export function asMinutes(milliseconds: number): string {
  const left = Math.ceil(milliseconds / 1000);
  const seconds = Math.abs(left);
  return `${left < 0 ? "−" : ""}${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
