/* What came of a phone's file at the desk, as it travels. */

/** `kept` notes are safe now, `new` of them were not before. `late`: they came after the key was opened. */
export interface TakenIn {
  seat_name: string;
  kept: number;
  new: number;
  late: boolean;
  refused: { number: number; message: string }[];
}
