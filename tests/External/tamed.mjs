// A page's audio clock and timers, turned by hand: what would have sounded is written down.

/** In the page, before its script: time passes only in advance(), and a source that is started is written down instead. */
export function tamed() {
  let now = 0, timers = [], next = 1;
  const world = globalThis.world = { started: [], contexts: 0, ramps: [], pitches: [] };
  const buffers = new Map();
  Object.defineProperty(BaseAudioContext.prototype, 'currentTime', { get: () => now });
  AudioContext.prototype.resume = async () => {};
  const Real = AudioContext;
  globalThis.AudioContext = class extends Real { constructor(...options) { super(...options); world.contexts++; } };
  globalThis.setTimeout = (call, after = 0) => { timers.push({ id: next, at: now + after / 1000, after, call }); return next++; };
  globalThis.clearTimeout = id => { timers = timers.filter(t => t.id !== id); };
  AudioBufferSourceNode.prototype.start = function (when) {
    // The library's constant signals are buffers of one sample.
    if (!this.buffer || this.buffer.duration < 0.001)
      return;
    if (!buffers.has(this.buffer)) {
      buffers.set(this.buffer, buffers.size);
      world.pitches.push(this.buffer.duration < 0.2 ? 0 : pitch(this.buffer.getChannelData(0), this.buffer.sampleRate));
    }
    world.started.push([when, buffers.get(this.buffer)]);
  };
  AudioBufferSourceNode.prototype.stop = () => {};
  const ramp = AudioParam.prototype.linearRampToValueAtTime;
  AudioParam.prototype.linearRampToValueAtTime = function (value, time) { world.ramps.push(value); return ramp.call(this, value, time); };
  world.now = () => now;
  // The script looks again every 200 ms while it plays.
  world.playing = () => timers.some(t => t.after === 200);
  world.advance = async seconds => {
    for (const end = now + seconds; now < end;) {
      now = Math.min(end, now + 0.1);
      for (const due of timers.filter(t => t.at <= now)) {
        timers = timers.filter(t => t !== due);
        due.call();
      }
      await null;
    }
  };
  // Hertz, by autocorrelation: the shortest lag that is about as good as the best, then made exact over ten periods.
  function pitch(samples, rate) {
    const from = Math.floor(rate * 0.15), length = Math.floor(rate * 0.12);
    const like = lag => { let sum = 0; for (let i = from; i < from + length; i++) sum += samples[i] * samples[i + lag]; return sum; };
    const top = (low, high) => {
      let best = low;
      for (let lag = low; lag <= high; lag++)
        if (like(lag) > like(best)) best = lag;
      const [a, b, c] = [like(best - 1), like(best), like(best + 1)];
      return [best + (a - c) / (2 * (a - 2 * b + c)), b];
    };
    const [low, high] = [Math.floor(rate / 1500), Math.ceil(rate / 60)];
    const best = top(low, high)[1];
    let lag = low;
    while (!(like(lag) > 0.85 * best && like(lag) >= like(lag - 1) && like(lag) >= like(lag + 1))) lag++;
    const ten = top(Math.round(lag * 10 - lag / 3), Math.round(lag * 10 + lag / 3))[0];
    return 10 * rate / ten;
  }
}
