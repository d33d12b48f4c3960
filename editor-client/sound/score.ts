// What the page knows of the music, and when each of it is due: no sound and no page here.

/** A bar as it is played: index as written, start and length in seconds, seconds between two clicks of a count-in, seconds of the count-in before it, clicks in a full bar. */
export type PlayedBar = [index: number, start: number, length: number, click: number, lead: number, clicks: number];

/** A note as it is played: onset and duration in seconds, MIDI number, index of its voice, index among the played bars, loudness 0 to 127, where its text begins, the MIDI number it is bent to or 0. */
export type PlayedNote = [onset: number, duration: number, midi: number, voice: number, bar: number, level: number, from: number, bend: number];

/** The piece as it is played through. */
export interface Score { voices: string[]; bars: PlayedBar[]; notes: PlayedNote[] }

/** What is due at a time in seconds after the start. */
export interface Due { at: number; note?: PlayedNote; accent?: boolean }

/** A stretch of the piece, laid out in time. */
export interface Plan { due: Due[]; seconds: number; lead: number; from: number; until: number; start: number }

/**
 * Lays out played bars from..until (both included) in time.
 * @param speed 1 as written, less is slower
 * @param counted whether clicks go before
 * @param start seconds of the piece at which to begin, for going on in the middle
 */
export function plan(score: Score, from: number, until: number, speed: number, counted: boolean, start?: number): Plan {
  const first = score.bars[from]!, last = score.bars[until]!;
  const begin = start ?? first[1];
  const lead = counted ? first[4] / speed : 0;
  const due: Due[] = [];
  if (counted)
    // A hundredth of a click: the seconds are rounded.
    for (let i = 0; i < first[4] / first[3] - 0.01; i++)
      due.push({ at: i * first[3] / speed, accent: i % first[5] === 0 });
  for (const note of score.notes)
    if (note[4] >= from && note[4] <= until && (start === undefined || note[0] >= start))
      due.push({ at: lead + (note[0] - begin) / speed, note });
  due.sort((a, b) => a.at - b.at);
  return { due, seconds: lead + (last[1] + last[2] - begin) / speed, lead, from, until, start: begin };
}

/** The first time that one of these bars is played and how far it goes on among them without a leap back, as places among the played bars; null where none is played. */
export function stretch(score: Score, firstBar: number, lastBar: number): [from: number, until: number] | null {
  const inside = (i: number) => i < score.bars.length && score.bars[i]![0] >= firstBar && score.bars[i]![0] <= lastBar;
  const from = score.bars.findIndex((_, i) => inside(i));
  if (from < 0)
    return null;
  let until = from;
  while (inside(until + 1) && score.bars[until + 1]![0] > score.bars[until]![0])
    until++;
  return [from, until];
}
