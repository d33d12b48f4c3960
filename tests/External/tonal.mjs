// Writes what the reference libraries know of chord symbols as JSON: node tonal.mjs FOLDER
import { mkdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { ChordType, Interval } from "tonal";

const folder = process.argv[2];
if (!folder) {
  console.error("usage: node tonal.mjs FOLDER");
  process.exit(2);
}
mkdirSync(folder, { recursive: true });

const mod12 = (n) => ((n % 12) + 12) % 12;
const write = (name, value) => writeFileSync(join(folder, name), JSON.stringify(value, null, 1) + "\n");

write("tonal.json", ChordType.all().map((type) => ({
  name: type.name,
  aliases: type.aliases,
  intervals: type.intervals.map((interval) => mod12(Interval.semitones(interval))),
})));

const guitar = createRequire(import.meta.url)("@tombatossals/chords-db/lib/guitar.json");
const soundsOf = (suffix) => Object.values(guitar.chords).flat()
  .filter((chord) => chord.suffix === suffix)
  .map((chord) => ({ key: chord.key, sounds: chord.positions.map((p) => [...new Set(p.midi.map(mod12))].sort((a, b) => a - b)) }));
write("chords-db.json", guitar.suffixes.map((suffix) => ({ suffix, chords: soundsOf(suffix) })));
