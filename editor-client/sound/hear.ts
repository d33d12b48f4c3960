// The words in the margin of a sheet that is heard: what each of them does. Nothing sounds before one of them is pressed.
import './quiet.js';
import { Player } from './player.js';
import { stretch, type Score } from './score.js';

const speeds = [1, 0.8, 0.65, 0.5];

const score = JSON.parse(document.getElementById('heard')!.textContent!) as Score;
const player = new Player(score);
const said = document.getElementById('said')!;
const margins = [...document.querySelectorAll<HTMLElement>('.hear')];
const buttons = margins.flatMap(m => [...m.querySelectorAll<HTMLButtonElement>('button[data-hear]')]);
const words = new Map(buttons.map(b => [b, b.textContent ?? '']));
const places = new Map<string, Element[]>();
for (const sign of document.querySelectorAll('.sys [data-pitch][data-from]'))
  places.set(sign.getAttribute('data-from')!, [...places.get(sign.getAttribute('data-from')!) ?? [], sign]);

let active: HTMLButtonElement | null = null;
let lit: { begins: number; ends: number; signs: Element[] }[] = [];

function pressed(button: HTMLButtonElement): void {
  const margin = button.closest<HTMLElement>('.hear')!;
  const bars = (of: HTMLElement) => stretch(score, Number(of.dataset.first), Number(of.dataset.last));
  switch (button.dataset.hear) {
    case 'from':
    case 'again': {
      if (active === button) {
        player.stop();
        break;
      }
      const found = bars(button.dataset.first ? button : margin);
      if (!found) {
        say('These bars are never played: the form passes them by.');
        break;
      }
      player.stop();
      active = button;
      const again = button.dataset.hear === 'again';
      player.play(found[0], again ? found[1] : score.bars.length - 1, again).catch(() => {
        active = null;
        show();
        say('This browser gives no sound.');
      });
      break;
    }
    case 'slower': {
      const speed = speeds[(speeds.indexOf(player.speed) + 1) % speeds.length]!;
      player.pace(speed);
      say(speed === 1 ? 'As fast as written.' : `At ${Math.round(speed * 100)} percent of the written tempo.`);
      break;
    }
    case 'count':
      player.counted = !player.counted;
      break;
    case 'voice':
      player.leaveOut(Number(button.dataset.voice), !player.isLeftOut(Number(button.dataset.voice)));
      break;
  }
  show();
}

// Every margin says the same of what holds for the whole page.
function show(): void {
  for (const button of buttons) {
    const own = words.get(button)!;
    switch (button.dataset.hear) {
      case 'slower':
        button.textContent = player.speed === 1 ? own : `${own} (now ${Math.round(player.speed * 100)} %)`;
        break;
      case 'count':
        button.setAttribute('aria-pressed', String(player.counted));
        break;
      case 'voice':
        button.setAttribute('aria-pressed', String(player.isLeftOut(Number(button.dataset.voice))));
        break;
      default:
        button.textContent = button === active ? 'Stop' : own;
    }
  }
}

function say(what: string): void {
  said.textContent = what;
}

player.changed = () => {
  if (player.playing)
    requestAnimationFrame(follow);
  else if (active) {
    active = null;
    show();
  }
};

player.struck = (note, begins, ends) => {
  const signs = places.get(String(note[6]));
  if (signs)
    lit.push({ begins, ends, signs });
};

// The notes that sound are marked on the page.
function follow(): void {
  const now = player.now;
  lit = lit.filter(l => l.ends > now && player.playing);
  const sounding = new Set(lit.filter(l => l.begins <= now).flatMap(l => l.signs));
  for (const sign of document.querySelectorAll('.sys .now'))
    if (!sounding.has(sign))
      sign.classList.remove('now');
  for (const sign of sounding)
    sign.classList.add('now');
  if (player.playing)
    requestAnimationFrame(follow);
}

for (const button of buttons)
  button.addEventListener('click', () => pressed(button));
for (const margin of margins)
  margin.hidden = false;
document.addEventListener('keydown', event => {
  if (event.key === 'Escape')
    player.stop();
});
