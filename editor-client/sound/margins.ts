// The words in the margins of a sheet that is heard: what each of them does. Nothing sounds before one of them is pressed.
import { Player } from './player.js';
import { stretch, type Score } from './score.js';

const speeds = [1, 0.8, 0.65, 0.5];

/** The page that the margins stand on. */
export interface Page {
  /** What it sounds; asked for when a word is pressed. */
  music(): Score | Promise<Score>;
  /** The signs that show a note, by where its text begins. */
  signs(): Map<number, Element[]>;
  /** Tells those who do not see it. */
  say(what: string): void;
}

/** Knows the words by `data-hear`; margins may come and go. */
export class Margins {
  private readonly player = new Player();
  private readonly words = new WeakMap<HTMLButtonElement, string>();
  // By name, not by element: a line that is drawn anew has another button of the same name.
  private active = '';
  private presses = 0;
  private places = new Map<number, Element[]>();
  private lit: { begins: number; ends: number; signs: Element[] }[] = [];

  constructor(private readonly page: Page) {
    document.addEventListener('click', event => {
      const button = event.target instanceof Element ? event.target.closest<HTMLButtonElement>('.hear button[data-hear]') : null;
      if (button)
        this.pressed(button).catch((error: unknown) => {
          this.active = '';
          this.show();
          this.page.say(error instanceof Error && error.message !== '' ? error.message : 'This browser gives no sound.');
        });
    });
    document.addEventListener('keydown', event => {
      if (event.key === 'Escape')
        this.stop();
    });
    this.player.changed = () => {
      if (this.player.playing)
        requestAnimationFrame(() => this.follow());
      else if (this.active !== '') {
        this.active = '';
        this.show();
      }
    };
    this.player.struck = (note, begins, ends) => {
      const signs = this.places.get(note[6]);
      if (signs)
        this.lit.push({ begins, ends, signs });
    };
  }

  get playing(): boolean { return this.player.playing; }

  stop(): void {
    this.presses++;
    this.player.stop();
  }

  /** Every margin says the same of what holds for the whole page; a new one is told by this. */
  show(within: ParentNode = document): void {
    for (const button of within.querySelectorAll<HTMLButtonElement>('.hear button[data-hear]')) {
      const own = this.own(button);
      switch (button.dataset.hear) {
        case 'slower':
          button.textContent = this.player.speed === 1 ? own : `${own} (now ${Math.round(this.player.speed * 100)} %)`;
          break;
        case 'count':
          button.setAttribute('aria-pressed', String(this.player.counted));
          break;
        case 'voice':
          button.setAttribute('aria-pressed', String(this.player.isLeftOut(button.dataset.voice!)));
          break;
        default:
          button.textContent = this.name(button) === this.active ? 'Stop' : own;
      }
    }
  }

  private own(button: HTMLButtonElement): string {
    const known = this.words.get(button) ?? button.textContent ?? '';
    this.words.set(button, known);
    return known;
  }

  private bars(button: HTMLButtonElement): DOMStringMap {
    return button.dataset.first ? button.dataset : button.closest<HTMLElement>('.hear')!.dataset;
  }

  private name(button: HTMLButtonElement): string {
    return `${this.own(button)} ${this.bars(button).first} ${this.bars(button).last}`;
  }

  private async pressed(button: HTMLButtonElement): Promise<void> {
    const what = button.dataset.hear, voice = button.dataset.voice;
    if (what === 'slower') {
      const speed = speeds[(speeds.indexOf(this.player.speed) + 1) % speeds.length]!;
      this.player.pace(speed);
      this.page.say(speed === 1 ? 'As fast as written.' : `At ${Math.round(speed * 100)} percent of the written tempo.`);
    } else if (what === 'count')
      this.player.counted = !this.player.counted;
    else if (voice !== undefined)
      this.player.leaveOut(voice, !this.player.isLeftOut(voice));
    else if (this.active === this.name(button))
      this.stop();
    else
      await this.play(this.name(button), this.bars(button), what === 'again');
    this.show();
  }

  private async play(name: string, bars: DOMStringMap, again: boolean): Promise<void> {
    this.stop();
    const press = this.presses, music = this.page.music();
    const score = music instanceof Promise ? await music : music;
    // Another word was pressed meanwhile, or Escape.
    if (press !== this.presses)
      return;
    const found = stretch(score, Number(bars.first), Number(bars.last));
    if (!found) {
      this.page.say('These bars are never played: the form passes them by.');
      return;
    }
    this.active = name;
    this.places = this.page.signs();
    this.show();
    await this.player.play(score, found[0], again ? found[1] : score.bars.length - 1, again);
  }

  // The notes that sound are marked on the page.
  private follow(): void {
    const now = this.player.now;
    this.lit = this.lit.filter(l => l.ends > now && this.player.playing);
    const sounding = new Set(this.lit.filter(l => l.begins <= now).flatMap(l => l.signs));
    for (const sign of document.querySelectorAll('.sys .now'))
      if (!sounding.has(sign))
        sign.classList.remove('now');
    for (const sign of sounding)
      sign.classList.add('now');
    if (this.player.playing)
      requestAnimationFrame(() => this.follow());
  }
}
