// The exported page that is heard: the music is in it as data, the words are there already and only hidden.
import './quiet.js';
import { Margins } from './margins.js';
import type { Score } from './score.js';

const score = JSON.parse(document.getElementById('heard')!.textContent!) as Score;
const said = document.getElementById('said')!;
const places = new Map<number, Element[]>();
for (const sign of document.querySelectorAll('.sys [data-pitch][data-from]')) {
  const from = Number(sign.getAttribute('data-from'));
  places.set(from, [...places.get(from) ?? [], sign]);
}
const margins = new Margins({ music: () => score, signs: () => places, say: what => { said.textContent = what; } });
for (const margin of document.querySelectorAll<HTMLElement>('.hear'))
  margin.hidden = false;
margins.show();
