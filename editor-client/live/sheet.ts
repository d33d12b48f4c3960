// In the page of the live sheet: draws the parts that changed, keeps the others, leads from a note to its text, and plays what is asked for.
import '../sound/quiet.js';
import { Margins } from '../sound/margins.js';
import type { Score } from '../sound/score.js';
import { arrange, made, mark, type Drawn } from './drawn.js';
import type { Choices, Found, FromPage, Heard, Sheet, ToPage } from './page.js';
import { pick, picked, unpick } from './pick.js';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void; getState(): Choices | undefined; setState(choices: Choices): void };

const editor = acquireVsCodeApi();
const byId = (id: string) => document.getElementById(id)!;
const style = new CSSStyleSheet();
// The sheet's own style stands before that of this page, which follows the editor's theme.
const own = new CSSStyleSheet();
own.replaceSync(byId('look').textContent!);
document.adoptedStyleSheets = [style, own];

let drawn: Drawn[] = [];
let found: Found[] = [];
let caret = -1, asked = -1, version = -1, width = 0, resized = 0;

// A page that was hidden begins anew; what was chosen is kept.
const choices: Choices = { large: false, numerals: false, skeleton: false, ...editor.getState() };

let heard: Heard | null = null, score: Score | null = null;
let waiting: ((score: Score) => void)[] = [], refused: ((error: Error) => void)[] = [];
const margins = new Margins({
  // What was edited since is asked for when a word is pressed, not before.
  music: () => score && heard?.version === version ? score : new Promise<Score>((done, fail) => {
    waiting.push(done);
    refused.push(fail);
    editor.postMessage({ kind: 'hear' });
  }),
  signs: () => {
    const places = new Map<number, Element[]>();
    if (heard?.version === version)
      for (const { part, signs } of drawn)
        for (const { sign, from } of signs)
          if (part.line && sign.hasAttribute('data-pitch'))
            places.set(part.line.from + from, [...places.get(part.line.from + from) ?? [], sign]);
    return places;
  },
  say: what => { byId('said').textContent = what; },
});

function draw(sheet: Sheet): void {
  version = sheet.version;
  byId('trouble').textContent = sheet.parts.some(p => p.line) ? '' : 'Nothing is written yet: a line that begins with | opens the first bar.';
  if (sheet.look.style !== undefined)
    style.replaceSync(sheet.look.style);
  if (sheet.look.signs !== undefined)
    byId('signs').innerHTML = sheet.look.signs;
  const kept = new Map<string, Drawn[]>();
  for (const d of drawn)
    kept.set(d.part.id, [...kept.get(d.part.id) ?? [], d]);
  const fresh: Drawn[] = [];
  drawn = sheet.parts.map(part => {
    const same = kept.get(part.id)?.shift();
    if (same)
      return { ...same, part };
    const one = made(part);
    fresh.push(one);
    return one;
  });
  arrange(byId('parts'), drawn);
  for (const d of fresh) {
    practise(d.element);
    margins.show(d.element);
  }
  mark(drawn, caret, found);
}

// Bars worth practising are known later than the drawing: they are found by looking at the whole piece.
function practise(within: HTMLElement): void {
  const hear = within.querySelector<HTMLElement>('.hear');
  if (!hear || !heard)
    return;
  const words = heard.practise.filter(p => p.bar >= Number(hear.dataset.first) && p.bar <= Number(hear.dataset.last));
  const there = [...hear.querySelectorAll<HTMLElement>('.practise')];
  if (words.map(p => p.words).join() === there.map(b => b.dataset.says).join())
    return;
  for (const button of there)
    button.remove();
  const behind = hear.querySelector('[data-hear=again]');
  for (const p of [...words].reverse()) {
    const button = Object.assign(document.createElement('button'), { type: 'button', className: 'practise', textContent: p.words });
    Object.assign(button.dataset, { hear: 'again', first: String(p.bar), last: String(p.bar), says: p.words });
    behind?.after(button);
  }
  margins.show(within);
}

function listen(message: Heard | null): void {
  const [done, fail] = [waiting, refused];
  [waiting, refused] = [[], []];
  if (!message) {
    for (const one of fail)
      one(new Error('What it sounds cannot be had.'));
    return;
  }
  heard = message;
  score = JSON.parse(message.music) as Score;
  for (const one of done)
    one(score);
  for (const d of drawn)
    practise(d.element);
}

// Units of the drawing that have room in a line: at least as large as on paper, however narrow the panel is.
function room(): number {
  const [scale, most] = choices.large ? [1.7, 500] : [1.13, 760];
  return Math.max(300, Math.min(most, Math.floor((byId('parts').clientWidth - 16) / scale / 20) * 20));
}

function tell(kind: 'ready' | 'chosen'): void {
  width = room();
  editor.postMessage({ kind, choices, width });
}

function choose(): void {
  for (const button of document.querySelectorAll<HTMLButtonElement>('[data-choice]'))
    button.setAttribute('aria-pressed', String(choices[button.dataset.choice as keyof Choices]));
}

function follow(): void {
  const sign = document.querySelector('.sys .caret') ?? document.querySelector('.system.here');
  const box = sign?.getBoundingClientRect();
  if (box && (box.top < 0 || box.bottom > innerHeight))
    sign!.scrollIntoView({ block: 'center' });
}

function placeOf(sign: Element | null): { from: number; to: number } | undefined {
  const line = sign && drawn.find(x => x.element.contains(sign))?.part.line;
  return line ? { from: line.from + Number(sign.getAttribute('data-from')), to: line.from + Number(sign.getAttribute('data-to')) } : undefined;
}

const closest = (target: EventTarget | null, selector: string) => target instanceof Element ? target.closest<HTMLElement>(selector) : null;

// A chord is explained at a place of the window.
function explain(chord: Element | null, x: number, y: number): void {
  const place = placeOf(chord);
  asked = place?.from ?? -1;
  byId('explained').hidden = true;
  if (place) {
    const at = byId('explained').style;
    at.left = `${Math.max(0, Math.min(x, innerWidth - 400))}px`;
    at.top = `${y + 16}px`;
    editor.postMessage({ kind: 'explain', offset: place.from });
  }
}

document.addEventListener('click', event => {
  const place = placeOf(closest(event.target, '.sys [data-from], .findings [data-from]'));
  const go = closest(event.target, '.go');
  const line = go && drawn.find(d => d.element.contains(go))?.part.line;
  const choice = closest(event.target, '[data-choice]')?.dataset.choice as keyof Choices | undefined;
  if (place)
    editor.postMessage({ kind: 'go', ...place });
  else if (line)
    editor.postMessage({ kind: 'go', from: line.from, to: line.from });
  else if (choice) {
    choices[choice] = !choices[choice];
    choose();
    editor.setState(choices);
    tell('chosen');
  }
});
document.addEventListener('pointerover', event => explain(closest(event.target, '.sys [data-symbol]'), event.clientX, event.clientY));
document.addEventListener('keydown', event => {
  if (event.key === 'Escape')
    byId('explained').hidden = true;
  const notes = closest(event.target, '.notes');
  if (!notes || event.ctrlKey || event.altKey || event.metaKey)
    return;
  if (event.key === 'Enter') {
    const place = placeOf(picked(notes));
    if (place)
      editor.postMessage({ kind: 'go', ...place });
    return;
  }
  const sign = /^(Arrow|Home$|End$)/.test(event.key) ? pick(notes, event.key) : null;
  if (sign) {
    event.preventDefault();
    const box = sign.getBoundingClientRect();
    explain(sign.hasAttribute('data-symbol') ? sign : null, box.left, box.bottom - 8);
    if (box.top < 0 || box.bottom > innerHeight)
      sign.scrollIntoView({ block: 'center' });
  }
});
document.addEventListener('focusout', event => {
  const notes = closest(event.target, '.notes');
  if (notes) {
    unpick(notes);
    byId('explained').hidden = true;
  }
});
window.addEventListener('message', (event: MessageEvent<ToPage>) => {
  const message = event.data;
  switch (message.kind) {
    case 'sheet':
      draw(message.sheet);
      break;
    case 'heard':
      listen(message.heard);
      break;
    case 'caret':
      caret = message.offset;
      mark(drawn, caret, found);
      follow();
      break;
    case 'findings':
      found = message.found;
      mark(drawn, caret, found);
      break;
    case 'explained':
      if (message.offset === asked && message.text !== '') {
        byId('explained').textContent = message.text;
        byId('explained').hidden = false;
      }
      break;
    case 'trouble':
      byId('trouble').textContent = message.text;
      break;
  }
});
window.addEventListener('resize', () => {
  clearTimeout(resized);
  resized = setTimeout(() => {
    if (room() !== width)
      tell('chosen');
  }, 200);
});
choose();
tell('ready');
