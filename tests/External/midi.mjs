// Reads a MIDI file with a library that is not ours and prints its notes as JSON: node midi.mjs FILE
import { readFileSync } from "node:fs";
import { parseMidi } from "midi-file";

const file = parseMidi(readFileSync(process.argv[2]));
const notes = [];
file.tracks.forEach((track, number) => {
  let time = 0;
  const open = new Map();
  for (const event of track) {
    time += event.deltaTime;
    const key = `${event.channel} ${event.noteNumber}`;
    if (event.type === "noteOn") open.set(key, time);
    else if (event.type === "noteOff" && open.has(key)) {
      notes.push({ track: number, midi: event.noteNumber, on: open.get(key), off: time });
      open.delete(key);
    }
  }
  if (open.size > 0) throw new Error(`track ${number} leaves notes on`);
});
console.log(JSON.stringify({ format: file.header.format, ticks: file.header.ticksPerBeat, tracks: file.tracks.length, notes }));
