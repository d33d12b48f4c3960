// The page of the live sheet in a plain headless browser, fed by a real server: lines that did not change stay the same elements, the caret and the findings
// are marked, a click names the text of its note, a chord is explained, and the policy of the page is never broken.
// usage: CHORDLANG=PROGRAM node live.mjs      after `node editor-client/build.mjs bundle`
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { session } from './server.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const { build } = createRequire(join(root, 'editor-client', 'package.json'))('esbuild');
const made = await build({ entryPoints: [join(root, 'editor-client', 'live', 'page.ts')], bundle: true, format: 'esm', write: false });
const { page: html } = await import(`data:text/javascript;base64,${Buffer.from(made.outputFiles[0].contents).toString('base64')}`);

const server = session(process.env.CHORDLANG ?? 'chordlang');
const uri = 'file:///lesson.chl';
const bars = name => `section ${name}\n\n${['Cmaj7', 'Am7', 'Dm7', 'G7'].map(c => `| ${c}\n    1 C4  2 E4  3 G4  4 E4\n`).join('\n')}\n`;
let text = `title Live <img src=x onerror=alert(1)>\nkey C major\n\n${Array.from({ length: 50 }, (_, i) => bars(`Part ${i + 1}`)).join('')}`;
let known = [];
const sheet = async () => {
  const answer = await server.request('chordlang/sheet', { textDocument: { uri }, known });
  known = answer.lines.map(l => l.id);
  return answer;
};

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const browser = await chromium.launch({ executablePath, args: ['--disable-gpu', ...(process.getuid?.() === 0 ? ['--no-sandbox'] : [])] });
try {
  await server.request('initialize', { processId: null, rootUri: null, capabilities: {} });
  server.notify('initialized', {});
  server.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'chordlang', version: 1, text } });

  const page = await browser.newPage({ viewport: { width: 900, height: 700 } });
  const trouble = [], asked = [];
  page.on('console', m => trouble.push(m.text()));
  page.on('pageerror', e => trouble.push(String(e)));
  page.on('dialog', d => { trouble.push(d.message()); void d.dismiss(); });
  page.on('request', r => asked.push(r.url()));
  await page.addInitScript(() => {
    globalThis.said = [];
    globalThis.acquireVsCodeApi = () => ({ postMessage: m => globalThis.said.push(m) });
    globalThis.times = [];
    // How long the page is at work on a message.
    globalThis.tell = m => {
      const began = performance.now();
      window.dispatchEvent(new MessageEvent('message', { data: m }));
      document.body.getBoundingClientRect();
      return performance.now() - began;
    };
  });
  // The script is inline here, for there is no webview that would serve it; the nonce is the same for both.
  await page.route('http://sheet.test/', route => route.fulfill({ contentType: 'text/html', body: html('n0nce', readFileSync(join(root, '.artifacts', 'vsix', 'sheet.js'), 'utf8'), '') }));
  await page.goto('http://sheet.test/');
  const tell = message => page.evaluate(m => globalThis.tell(m), message);
  const said = () => page.evaluate(() => globalThis.said.splice(0));
  assert.deepEqual(await said(), [{ kind: 'ready' }]);

  let answer = await sheet();
  const whole = await tell({ kind: 'sheet', sheet: answer });
  assert.equal(await page.locator('.system svg.sys').count(), answer.lines.length);
  assert.equal(await page.locator('h1').innerText(), 'Live <img src=x onerror=alert(1)>');
  assert.equal(await page.locator('main img').count(), 0);

  // A click on a note names its text.
  const note = page.locator('.tab [data-fret]').nth(2);
  await note.click();
  const [went] = await said();
  assert.equal(went.kind, 'go');
  assert.equal(text.slice(went.from, went.to), 'G4');
  await page.locator('.go').first().focus();
  await page.keyboard.press('Enter');
  assert.equal(text.slice((await said())[0].from).split('\n')[0], '| Cmaj7');

  // The caret is followed.
  const far = text.lastIndexOf('G4');
  await tell({ kind: 'caret', offset: far });
  const marked = await page.evaluate(() => [...document.querySelectorAll('.tab .caret')].map(e => [e.dataset.pitch, e.closest('.system') === [...document.querySelectorAll('.system')].at(-1)]));
  assert.deepEqual(marked, [['G4', true]]);
  await page.waitForFunction(() => { const box = document.querySelector('.sys .caret').getBoundingClientRect(); return box.top >= 0 && box.bottom <= innerHeight; }, undefined, { timeout: 10_000 });

  // A finding stands at its note and under its line, as text.
  await tell({ kind: 'findings', found: [{ from: far, to: far + 2, level: 'warning', message: '<b>one fret off</b>' }] });
  assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('.tab .found')].map(e => [e.dataset.pitch, e.querySelector('title').textContent])), [['G4', '<b>one fret off</b>']]);
  assert.deepEqual(await page.locator('.findings li').allInnerTexts(), ['warning: <b>one fret off</b>']);
  await tell({ kind: 'findings', found: [] });
  assert.equal(await page.locator('.found').count(), 0);

  // A chord is explained where it stands.
  await page.evaluate(() => scrollTo(0, 0));
  await page.locator('[data-symbol=Am7]').first().hover();
  const hover = (await said()).at(-1);
  assert.equal(hover.kind, 'explain');
  assert.ok(text.slice(hover.offset).startsWith('Am7'));
  await tell({ kind: 'explained', offset: hover.offset, text: 'A minor seventh.' });
  assert.equal(await page.locator('#explained').innerText(), 'A minor seventh.');
  await page.keyboard.press('Escape');
  assert.ok(await page.locator('#explained').isHidden());

  // One bar changes: its line is new, all others are the elements that they were.
  await page.evaluate(() => { globalThis.before = [...document.querySelectorAll('.system')]; });
  const at = text.indexOf('2 E4', text.indexOf('section Part 7'));
  const edit = '2 F4 ring';
  const position = offset => ({ line: text.slice(0, offset).split('\n').length - 1, character: offset - text.lastIndexOf('\n', offset - 1) - 1 });
  const range = { start: position(at), end: position(at + 4) };
  text = text.slice(0, at) + edit + text.slice(at + 4);
  server.notify('textDocument/didChange', { textDocument: { uri, version: 2 }, contentChanges: [{ range, text: edit }] });
  const began = performance.now();
  answer = await sheet();
  const answered = performance.now() - began;
  assert.equal(answer.lines.filter(l => l.svg).length, 1);
  const atWork = await page.evaluate(m => { const began = performance.now(); window.dispatchEvent(new MessageEvent('message', { data: m })); return performance.now() - began; }, { kind: 'sheet', sheet: answer });
  const redrawn = atWork + await page.evaluate(() => { const began = performance.now(); document.body.getBoundingClientRect(); return performance.now() - began; });
  const same = await page.evaluate(() => { const now = [...document.querySelectorAll('.system')]; return [now.length, now.filter((e, i) => e === globalThis.before[i]).length]; });
  assert.deepEqual(same, [answer.lines.length, answer.lines.length - 1]);
  // What was kept leads to where its text stands now.
  await said();
  await page.locator('.system').last().locator('.tab [data-fret]').nth(2).click();
  const late = (await said()).find(m => m.kind === 'go');
  assert.equal(text.slice(late.from, late.to), 'G4');

  assert.deepEqual(trouble, []);
  assert.deepEqual(asked, ['http://sheet.test/']);
  console.log(`ok: the live sheet; ${answer.lines.length} lines of ${50 * 4} bars: drawn in ${whole.toFixed(0)} ms, one bar changed: answered in ${answered.toFixed(0)} ms, page at work for ${atWork.toFixed(1)} ms, laid out after ${redrawn.toFixed(1)} ms`);
} finally {
  await browser.close();
  await server.end();
}
