// Notes and chords by the keyboard: a line is one stop of the Tab key, arrows choose among what it holds, in the order in which it is seen.

/** What a line holds, with the words for each. */
interface Shown { signs: Element[]; option: HTMLElement }

const signsOf = new WeakMap<Element, Shown[]>();
let last = 0;

/** Chooses the next sign for a key, or the first where none is chosen yet; answers the one that is chosen now, or null where the key chooses nothing. */
export function pick(notes: HTMLElement, key: string): Element | null {
  const shown = signsOf.get(notes) ?? read(notes);
  signsOf.set(notes, shown);
  const before = shown.findIndex(s => s.option.getAttribute('aria-selected') === 'true');
  const next = before < 0 ? 0 : { ArrowRight: before + 1, ArrowDown: before + 1, ArrowLeft: before - 1, ArrowUp: before - 1, Home: 0, End: shown.length - 1 }[key];
  if (next === undefined || shown.length === 0)
    return null;
  const now = shown[Math.max(0, Math.min(shown.length - 1, next))]!;
  for (const s of shown) {
    s.option.setAttribute('aria-selected', String(s === now));
    for (const sign of s.signs)
      sign.classList.toggle('picked', s === now);
  }
  notes.setAttribute('aria-activedescendant', now.option.id);
  return now.signs[0]!;
}

/** The sign that is chosen on a line, or null. */
export function picked(notes: HTMLElement): Element | null {
  return signsOf.get(notes)?.find(s => s.option.getAttribute('aria-selected') === 'true')?.signs[0] ?? null;
}

/** Forgets what is chosen, when the line is left. */
export function unpick(notes: HTMLElement): void {
  notes.removeAttribute('aria-activedescendant');
  for (const { signs, option } of signsOf.get(notes) ?? []) {
    option.setAttribute('aria-selected', 'false');
    for (const sign of signs)
      sign.classList.remove('picked');
  }
}

// A note stands on the staff and on the strings: it is one choice.
function read(notes: HTMLElement): Shown[] {
  const all = new Map<string, { signs: Element[]; box: DOMRect }>();
  for (const sign of notes.querySelectorAll('[data-symbol], [data-grip], [data-pitch]')) {
    const kind = sign.hasAttribute('data-symbol') ? 'chord' : sign.hasAttribute('data-grip') ? 'grip' : 'note';
    const name = [kind, sign.getAttribute('data-bar'), sign.getAttribute('data-count'), sign.getAttribute('data-from'), sign.getAttribute('data-pitch'), sign.hasAttribute('data-grace')].join(' ');
    const known = all.get(name);
    if (known)
      known.signs.push(sign);
    else
      all.set(name, { signs: [sign], box: sign.getBoundingClientRect() });
  }
  const bar = (e: Element) => Number(e.getAttribute('data-bar'));
  // Within a bar by what is seen: from left to right, what is about the same column from top to bottom.
  const order = [...all.values()].sort((a, b) => bar(a.signs[0]!) - bar(b.signs[0]!) || (Math.abs(a.box.left - b.box.left) > 8 ? a.box.left - b.box.left : a.box.top - b.box.top));
  return order.map(({ signs }) => {
    const option = document.createElement('div');
    option.id = `option-${++last}`;
    option.className = 'spoken';
    option.setAttribute('role', 'option');
    option.setAttribute('aria-selected', 'false');
    option.textContent = words(signs);
    notes.append(option);
    return { signs, option };
  });
}

function words(signs: Element[]): string {
  const about = (name: string) => signs.map(s => s.getAttribute(`data-${name}`)).find(v => v !== null);
  const where = `bar ${about('bar')}, count ${about('count')}`;
  const symbol = about('symbol'), pitch = about('pitch');
  if (symbol)
    return `${symbol}, ${where}`;
  if (!pitch)
    return `Fret diagram, ${where}`;
  const named = pitch.replace(/^([A-G])(b+|#+)/, (_, letter: string, signs: string) => `${letter}${(signs[0] === 'b' ? ' flat' : ' sharp').repeat(signs.length)} `);
  return `${named}${about('fret') === undefined ? '' : `, string ${about('string')} fret ${about('fret')}`}, ${where}`;
}
