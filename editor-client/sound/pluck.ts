// The sound of a plucked string, worked out sample by sample.
// K. Karplus and A. Strong, "Digital Synthesis of Plucked-String and Drum Timbres", and D. Jaffe and J. Smith, "Extensions of the Karplus-Strong
// Plucked-String Algorithm", both Computer Music Journal 7(2), 1983: a delay line one period long, a filter that averages, an allpass that tunes.
// The library's own plucked string runs in a worklet made of a blob, which the page's policy forbids, and is tuned by whole samples only.

const middleOf = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/**
 * @param midi MIDI number; fractions are allowed
 * @param rate samples a second
 * @returns samples from -1 to 1
 */
export function pluck(midi: number, rate: number): Float32Array {
  const period = rate / (440 * 2 ** ((midi - 69) / 12));
  const turn = 2 * Math.PI / period;
  // Judgement: a low string rings 6 s until it has fallen by 60 dB, the highest frets 2.5 s; high notes are averaged less, or they would be dull.
  const ring = middleOf(6 - (midi - 40) * 0.08, 2.5, 6);
  const average = middleOf(0.5 - (midi - 60) * 0.01, 0.2, 0.5);
  const loss = Math.pow(10, -3 * period / (rate * ring));
  const rest = period - Math.atan2(average * Math.sin(turn), 1 - average + average * Math.cos(turn)) / turn;
  let whole = Math.floor(rest), part = rest - whole;
  if (part < 0.2) {
    part += 1;
    whole -= 1;
  }
  // The allpass whose phase delay at the fundamental is the missing part of a sample (Jaffe and Smith, equation 17).
  const tune = Math.sin((1 - part) * turn / 2) / Math.sin((1 + part) * turn / 2);
  const line = excited(whole, midi);
  const out = new Float32Array(Math.ceil(rate * ring));
  let at = 0, before = 0, allIn = 0, allOut = 0, peak = 0;
  for (let i = 0; i < out.length; i++) {
    const now = line[at]!;
    const mean = loss * ((1 - average) * now + average * before);
    before = now;
    allOut = tune * mean + allIn - tune * allOut;
    allIn = mean;
    line[at] = allOut;
    at = at + 1 === whole ? 0 : at + 1;
    out[i] = now;
    peak = Math.max(peak, Math.abs(now));
  }
  for (let i = 0; i < out.length; i++)
    out[i]! *= 0.9 / peak;
  return out;
}

// Noise as a soft fingertip leaves it: the same for the same pitch, without a constant part, thinned where the string is plucked (an eighth of its length).
function excited(length: number, midi: number): Float32Array {
  let seed = 7 + Math.round(midi * 131);
  const noise = Float32Array.from({ length }, () => (seed = (seed * 16807) % 2147483647) / 1073741823.5 - 1);
  for (let pass = 0; pass < 2; pass++)
    for (let i = 1; i < length; i++)
      noise[i] = noise[i - 1]! + 0.45 * (noise[i]! - noise[i - 1]!);
  const back = Math.max(1, Math.round(length / 8));
  const line = noise.map((x, i) => x - 0.8 * noise[(i + length - back) % length]!);
  const mean = line.reduce((a, b) => a + b, 0) / length;
  return line.map(x => x - mean);
}

/** A knock to count by: 40 ms. */
export function knock(accent: boolean, rate: number): Float32Array {
  return Float32Array.from({ length: Math.ceil(rate * 0.04) }, (_, i) => Math.sin(2 * Math.PI * (accent ? 1600 : 1100) * i / rate) * Math.exp(-i / (rate * 0.008)) * (accent ? 1 : 0.7));
}
