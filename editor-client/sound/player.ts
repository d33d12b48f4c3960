// Plays a stretch of the piece: hands each note to the browser's audio clock a moment before it is due.
import { Gain } from 'tone/build/esm/core/context/Gain.js';
import { Context } from 'tone/build/esm/core/context/Context.js';
import { setContext } from 'tone/build/esm/core/context/GlobalContext.js';
import { ToneAudioBuffer } from 'tone/build/esm/core/context/ToneAudioBuffer.js';
import { Limiter } from 'tone/build/esm/component/dynamics/Limiter.js';
import { ToneBufferSource } from 'tone/build/esm/source/buffer/ToneBufferSource.js';
import { knock, pluck } from './pluck.js';
import { plan, type Plan, type PlayedNote, type Score } from './score.js';

// Seconds: how far ahead notes are handed over (a page in the background is woken once a second only), how often, and how long until the first.
const ahead = 1.3, every = 0.2, soon = 0.15;
const release = 0.06, quick = 0.01;

interface Run { score: Score; plan: Plan; base: number; next: number; again: boolean }

/** One at a time; made without sound, the audio of the browser is asked for when the first stretch is played. */
export class Player {
  speed = 1;
  counted = false;
  /** Called when playing begins or ends. */
  changed: () => void = () => {};
  /** Called with each note, and the audio times at which it begins and ends. */
  struck: (note: PlayedNote, begins: number, ends: number) => void = () => {};

  private context: Context | null = null;
  private out: Limiter | null = null;
  private readonly voices = new Map<string, Gain>();
  private readonly left = new Set<string>();
  private readonly strings = new Map<number, ToneAudioBuffer>();
  private readonly sounding = new Set<ToneBufferSource>();
  private run: Run | null = null;
  private timer = 0;

  get playing(): boolean { return this.run !== null; }

  /** Seconds of the audio clock. */
  get now(): number { return this.context?.currentTime ?? 0; }

  isLeftOut(voice: string): boolean { return this.left.has(voice); }

  leaveOut(voice: string, out: boolean): void {
    this.left[out ? 'add' : 'delete'](voice);
    this.voices.get(voice)?.gain.rampTo(out ? 0 : 1, 0.03);
  }

  /** Plays the bars from..until of the played order, over and over if again. */
  async play(score: Score, from: number, until: number, again: boolean): Promise<void> {
    this.stop();
    const context = this.audio();
    // Not waited for where the browser never answers: the clock stands still until it allows sound.
    await context.resume();
    this.begin(score, plan(score, from, until, this.speed, this.counted), again);
  }

  /** Changes the speed, going on from where it is. */
  pace(speed: number): void {
    const run = this.run, before = this.speed;
    this.speed = speed;
    if (!run)
      return;
    const at = run.plan.start + Math.max(0, this.now - run.base - run.plan.lead) * before;
    const end = run.score.bars[run.plan.until]!;
    this.silence();
    this.begin(run.score, plan(run.score, run.plan.from, run.plan.until, speed, false, Math.min(at, end[1] + end[2])), run.again);
  }

  stop(): void {
    if (!this.run)
      return;
    this.silence();
    this.run = null;
    this.changed();
  }

  private begin(score: Score, laid: Plan, again: boolean): void {
    this.run = { score, plan: laid, base: this.now + soon, next: 0, again };
    this.changed();
    this.wake();
  }

  private wake(): void {
    const run = this.run;
    if (!run)
      return;
    for (;;) {
      const due = run.plan.due[run.next];
      if (due) {
        if (run.base + due.at > this.now + ahead)
          break;
        run.next++;
        if (due.note)
          this.note(run.score, due.note, run.base + due.at);
        else
          this.sound(this.string(due.accent ? -1 : -2), run.base + due.at, 0.04, 0.5, this.out!);
        continue;
      }
      if (!run.again || run.plan.seconds <= 0)
        break;
      run.base += run.plan.seconds;
      run.plan = plan(run.score, run.plan.from, run.plan.until, this.speed, false);
      run.next = 0;
      if (run.base > this.now + ahead)
        break;
    }
    if (!run.again && run.next >= run.plan.due.length && this.now > run.base + run.plan.seconds)
      this.end();
    else
      this.timer = window.setTimeout(() => this.wake(), every * 1000);
  }

  // What still rings at the end of the last bar rings out.
  private end(): void {
    this.run = null;
    this.changed();
  }

  private silence(): void {
    window.clearTimeout(this.timer);
    for (const source of this.sounding)
      source.stop(this.now);
    this.sounding.clear();
  }

  private note(score: Score, note: PlayedNote, at: number): void {
    const [, seconds, midi, voice, , level, , bend] = note;
    const lasts = seconds / this.speed;
    const source = this.sound(this.string(midi), at, lasts, 0.4 * level / 127, this.voice(score.voices[voice]!));
    if (bend > 0)
      source.playbackRate.setValueAtTime(1, at).linearRampToValueAtTime(2 ** ((bend - midi) / 12), at + Math.min(lasts, 0.15));
    this.struck(note, at, at + lasts);
  }

  private sound(buffer: ToneAudioBuffer, at: number, seconds: number, gain: number, to: Gain | Limiter): ToneBufferSource {
    const source = new ToneBufferSource({ context: this.context!, url: buffer, fadeOut: Math.min(release, seconds) }).connect(to);
    this.sounding.add(source);
    source.onended = () => {
      this.sounding.delete(source);
      // The library itself is still at work on it here; the buffer is shared and stays.
      window.setTimeout(() => source.disconnect(), quick);
    };
    return source.start(at, 0, seconds, gain);
  }

  private voice(name: string): Gain {
    let made = this.voices.get(name);
    if (!made)
      this.voices.set(name, made = new Gain({ context: this.context!, gain: this.left.has(name) ? 0 : 1 }).connect(this.out!));
    return made;
  }

  private string(midi: number): ToneAudioBuffer {
    let made = this.strings.get(midi);
    if (!made) {
      const rate = this.context!.sampleRate;
      const samples = midi < 0 ? knock(midi === -1, rate) : pluck(midi, rate);
      const native = this.context!.createBuffer(1, samples.length, rate);
      native.copyToChannel(samples as Float32Array<ArrayBuffer>, 0);
      this.strings.set(midi, made = new ToneAudioBuffer(native));
    }
    return made;
  }

  private audio(): Context {
    if (!this.context) {
      // The library's usual clock is a worker made of a blob, which the page's policy forbids.
      this.context = new Context({ clockSource: 'timeout', latencyHint: 'interactive' });
      setContext(this.context);
      this.out = new Limiter({ context: this.context, threshold: -6 }).connect(this.context.rawContext.destination);
    }
    return this.context;
  }
}
