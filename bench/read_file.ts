/* Reads a JSON list of notes several times, each time with a lexicon compiled anew. For bench/client_reading.py. */
import { performance } from "node:perf_hooks";
import { readFileSync } from "node:fs";
import data from "../client/src/words/reading/lexicon.json";
import { lexiconFrom } from "../client/src/words/reading/lexicon";
import { prepare, readNote } from "../client/src/words/reading/reading";

const [file = "", rounds = "1"] = process.argv.slice(2);
const notes: string[] = JSON.parse(readFileSync(file, "utf8"));
const compiled: number[] = [];
const took: number[][] = [];
for (let round = 0; round < Number(rounds); round += 1) {
  const started = performance.now();
  const lexicon = lexiconFrom(data);
  prepare(lexicon);
  compiled.push(performance.now() - started);
  took.push(
    notes.map((note) => {
      const before = performance.now();
      readNote(note, lexicon);
      return performance.now() - before;
    }),
  );
}
process.stdout.write(JSON.stringify({ compiled, took }));
