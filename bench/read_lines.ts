/* Reads texts with the client's reader: JSON texts in, one a line, JSON readings out. For bench/fuzz_reading.py. */
import { performance } from "node:perf_hooks";
import { createInterface } from "node:readline";
import data from "../client/src/words/reading/lexicon.json";
import { lexiconFrom } from "../client/src/words/reading/lexicon";
import { byCodePoints, prepare, readNote } from "../client/src/words/reading/reading";

const started = performance.now();
const lexicon = lexiconFrom(data);
prepare(lexicon);
const compiled = performance.now() - started;
const took: number[] = [];

for await (const line of createInterface({ input: process.stdin })) {
  const text = JSON.parse(line);
  const before = performance.now();
  const reading = readNote(text, lexicon);
  took.push(performance.now() - before);
  const { words, unread } = byCodePoints(reading);
  process.stdout.write(`${JSON.stringify({ words, unread })}\n`);
}
took.sort((one, other) => one - other);
const mean = took.reduce((sum, one) => sum + one, 0) / took.length;
process.stderr.write(JSON.stringify({ compiled, mean, of99: took[Math.floor(took.length * 0.99)] }));
