// In the page of the live sheet: draws the lines that changed, keeps the others, marks where the caret is and what was found, leads from a note to its text.
import type { Found, FromPage, Line, Sheet, ToPage } from './page.js';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void };

const editor = acquireVsCodeApi();
const byId = (id: string) => document.getElementById(id)!;
const style = new CSSStyleSheet();
// The sheet's own style stands before that of this page, which follows the editor's theme.
const own = new CSSStyleSheet();
own.replaceSync(byId('look').textContent!);
document.adoptedStyleSheets = [style, own];

/** A sign of a drawing; places count from where its line's text begins. What it shows now is kept, for asking the page costs time. */
interface Sign { sign: Element; from: number; to: number; caret: boolean; about: string }
interface Drawn { line: Line; element: HTMLElement; signs: Sign[]; list: Element; told: string }
let drawn: Drawn[] = [];
let found: Found[] = [];
let caret = -1, asked = -1, look = '', signs = '';

function draw(sheet: Sheet): void {
  byId('trouble').textContent = sheet.lines.length === 0 ? 'Nothing is written yet: a line that begins with | opens the first bar.' : '';
  byId('title').textContent = sheet.title;
  if (sheet.style !== look)
    style.replaceSync(look = sheet.style);
  if (sheet.signs !== signs)
    byId('signs').innerHTML = signs = sheet.signs;
  const kept = new Map<string, Drawn[]>();
  for (const d of drawn)
    kept.set(d.line.id, [...kept.get(d.line.id) ?? [], d]);
  drawn = sheet.lines.map(line => {
    const same = kept.get(line.id)?.shift();
    return same ? { ...same, line } : made(line);
  });
  const holder = byId('lines');
  let at = holder.firstElementChild;
  for (const { element } of drawn)
    if (element === at)
      at = at.nextElementSibling;
    else
      holder.insertBefore(element, at);
  while (at) {
    const next: Element | null = at.nextElementSibling;
    at.remove();
    at = next;
  }
  mark();
}

// The server escapes all that comes from the text; the page's policy would stop what it forgot.
function made(line: Line): Drawn {
  const section = document.createElement('section');
  section.className = 'system';
  section.setAttribute('aria-label', line.name);
  section.innerHTML = line.svg ?? '';
  const spoken = document.createElement('div');
  spoken.className = 'spoken';
  for (const sentence of line.spoken ?? [])
    spoken.append(Object.assign(document.createElement('p'), { textContent: sentence }));
  const go = Object.assign(document.createElement('button'), { type: 'button', className: 'go', textContent: `Go to the text of ${line.name[0]!.toLowerCase()}${line.name.slice(1)}` });
  const list = document.createElement('ul');
  list.className = 'findings';
  section.append(spoken, go, list);
  const signs = [...section.querySelectorAll('.sys [data-from]')].map(sign => ({
    sign, from: Number(sign.getAttribute('data-from')), to: Number(sign.getAttribute('data-to')), caret: false, about: '',
  }));
  return { line, element: section, signs, list, told: '' };
}

function mark(): void {
  const ending = Math.max(...drawn.filter(d => d.line.from <= caret).map(d => d.line.from), -1);
  for (const d of drawn) {
    d.element.classList.toggle('here', d.line.from === ending && caret <= d.line.to);
    for (const s of d.signs) {
      const from = d.line.from + s.from, to = d.line.from + s.to;
      const here = from <= caret && caret <= to;
      if (here !== s.caret)
        s.sign.classList.toggle('caret', s.caret = here);
      const about = found.filter(f => f.from < to && f.to > from).map(f => f.message).join('\n');
      if (about !== s.about)
        tell(s, about);
    }
    const own = found.filter(f => f.from < d.line.to && f.to > d.line.from).map(f => `${f.level}: ${f.message}`);
    if (own.join('\n') !== d.told) {
      d.told = own.join('\n');
      d.list.replaceChildren(...own.map(textContent => Object.assign(document.createElement('li'), { textContent })));
    }
  }
}

function tell(s: Sign, about: string): void {
  s.about = about;
  s.sign.classList.toggle('found', about !== '');
  s.sign.querySelector(':scope > title')?.remove();
  if (about !== '') {
    const title = document.createElementNS('http://www.w3.org/2000/svg', 'title');
    title.textContent = about;
    s.sign.append(title);
  }
}

function follow(): void {
  const sign = document.querySelector('.sys .caret') ?? document.querySelector('.system.here');
  const box = sign?.getBoundingClientRect();
  if (box && (box.top < 0 || box.bottom > innerHeight))
    sign!.scrollIntoView({ block: 'center' });
}

function placeOf(target: EventTarget | null, selector: string): { from: number; to: number } | undefined {
  const sign = target instanceof Element ? target.closest(`.sys ${selector}`) : null;
  const d = sign && drawn.find(x => x.element.contains(sign));
  return d ? { from: d.line.from + Number(sign.getAttribute('data-from')), to: d.line.from + Number(sign.getAttribute('data-to')) } : undefined;
}

document.addEventListener('click', event => {
  const place = placeOf(event.target, '[data-from]');
  const button = event.target instanceof Element ? event.target.closest('.go') : null;
  const line = button && drawn.find(d => d.element.contains(button))?.line;
  if (place)
    editor.postMessage({ kind: 'go', ...place });
  else if (line)
    editor.postMessage({ kind: 'go', from: line.from, to: line.from });
});
document.addEventListener('pointerover', event => {
  const place = placeOf(event.target, '[data-symbol]');
  asked = place?.from ?? -1;
  byId('explained').hidden = true;
  if (place) {
    const at = byId('explained').style;
    at.left = `${Math.max(0, Math.min(event.clientX, innerWidth - 400))}px`;
    at.top = `${event.clientY + 16}px`;
    editor.postMessage({ kind: 'explain', offset: place.from });
  }
});
document.addEventListener('keydown', event => {
  if (event.key === 'Escape')
    byId('explained').hidden = true;
});
window.addEventListener('message', (event: MessageEvent<ToPage>) => {
  const message = event.data;
  switch (message.kind) {
    case 'sheet':
      draw(message.sheet);
      break;
    case 'caret':
      caret = message.offset;
      mark();
      follow();
      break;
    case 'findings':
      found = message.found;
      mark();
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
editor.postMessage({ kind: 'ready' });
