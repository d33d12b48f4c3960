// The parts of the live sheet as elements of the page: made once, kept while their ids last, marked where the caret is and what was found.
import type { Found, Line, Part } from './page.js';

/** A sign of a drawing; places count from where its line's text begins. What it shows now is kept, for asking the page costs time. */
interface Sign { sign: Element; from: number; to: number; caret: boolean; about: string }

/** A part on the page. */
export interface Drawn { part: Part; element: HTMLElement; signs: Sign[]; list: Element | null; told: string }

function element<K extends keyof HTMLElementTagNameMap>(tag: K, about: Record<string, string> = {}): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(about))
    made.setAttribute(name, value);
  return made;
}

const lower = (words: string) => `${words[0]!.toLowerCase()}${words.slice(1)}`;

/** Makes a part. The server escapes all that comes from the text; the page's policy would stop what it forgot. */
export function made(part: Part): Drawn {
  if (!part.line) {
    const words = element('div');
    words.innerHTML = part.html ?? '';
    return { part, element: words, signs: [], list: null, told: '' };
  }
  const line = part.line;
  const section = element('section', { class: 'system', 'aria-label': line.name });
  const drawing = element('div');
  const notes = element('div', { class: 'notes', role: 'listbox', tabindex: '0', 'aria-label': `Notes and chords of ${lower(line.name)}. Arrows choose one, Enter goes to its text.` });
  notes.innerHTML = line.svg ?? '';
  const go = element('button', { type: 'button', class: 'go' });
  go.textContent = `Go to the text of ${lower(line.name)}`;
  const list = element('ul', { class: 'findings', 'aria-label': `Found in ${lower(line.name)}` });
  list.hidden = true;
  drawing.append(notes, list, go);
  const spoken = element('div', { class: 'spoken' });
  for (const sentence of line.spoken ?? []) {
    const p = element('p');
    p.textContent = sentence;
    spoken.append(p);
  }
  section.append(drawing, spoken);
  section.insertAdjacentHTML('beforeend', line.margin ?? '');
  section.querySelector<HTMLElement>('.hear')?.removeAttribute('hidden');
  const signs = [...section.querySelectorAll('.sys [data-from]')].map(sign => ({
    sign, from: Number(sign.getAttribute('data-from')), to: Number(sign.getAttribute('data-to')), caret: false, about: '',
  }));
  return { part, element: section, signs, list, told: '' };
}

/** Puts parts into a holder in their order and takes out what is there besides; what stands right already is not touched. */
export function arrange(holder: HTMLElement, parts: Drawn[]): void {
  let at = holder.firstElementChild;
  const wanted = new Set<Element>(parts.map(p => p.element));
  for (const { element } of parts) {
    // What goes is taken out first, so that what stays is not moved: it may hold the focus.
    while (at && !wanted.has(at)) {
      const next: Element | null = at.nextElementSibling;
      at.remove();
      at = next;
    }
    if (element === at)
      at = at.nextElementSibling;
    else
      holder.insertBefore(element, at);
  }
  while (at) {
    const next: Element | null = at.nextElementSibling;
    at.remove();
    at = next;
  }
}

/** Marks where the caret is and what was found. */
export function mark(drawn: Drawn[], caret: number, found: Found[]): void {
  const lines = drawn.flatMap(d => d.part.line ? [{ d, line: d.part.line }] : []);
  const ending = Math.max(...lines.filter(l => l.line.from <= caret).map(l => l.line.from), -1);
  for (const { d, line } of lines) {
    d.element.classList.toggle('here', line.from === ending && caret <= line.to);
    for (const s of d.signs) {
      const from = line.from + s.from, to = line.from + s.to;
      const here = from <= caret && caret <= to;
      if (here !== s.caret)
        s.sign.classList.toggle('caret', s.caret = here);
      const about = found.length === 0 ? '' : found.filter(f => f.from < to && f.to > from).map(f => f.message).join('\n');
      if (about !== s.about)
        tell(s, about);
    }
    list(d, line, found.filter(f => f.from < line.to && f.to > line.from));
  }
}

// Each finding leads to its text; places count from where the line's text begins.
function list(d: Drawn, line: Line, found: Found[]): void {
  const told = found.map(f => `${f.from - line.from} ${f.to - line.from} ${f.level}: ${f.message}`).join('\n');
  if (told === d.told || !d.list)
    return;
  d.told = told;
  (d.list as HTMLElement).hidden = found.length === 0;
  d.list.replaceChildren(...found.map(f => {
    const item = element('li'), go = element('button', { type: 'button', class: 'go', 'data-from': String(f.from - line.from), 'data-to': String(f.to - line.from) });
    go.textContent = `${f.level}: ${f.message}`;
    item.append(go);
    return item;
  }));
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
