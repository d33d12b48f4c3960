// The page of the live sheet in a plain headless browser, fed by a real server: parts that did not change stay the same elements, the caret and the findings
// are marked, a click or the keyboard names the text of a note, a chord is explained, it is played when it is asked for and never else, an accessibility
// checker reads it, and the policy of the page is never broken. Pictures are left in .artifacts/live.
// usage: CHORDLANG=PROGRAM node live.mjs      after `node editor-client/build.mjs bundle`
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { tamed } from '../../External/tamed.mjs';
import { session } from './server.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const { build } = createRequire(join(root, 'editor-client', 'package.json'))('esbuild');
const made = await build({ entryPoints: [join(root, 'editor-client', 'live', 'page.ts')], bundle: true, format: 'esm', write: false });
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const pictures = join(root, '.artifacts', 'live');
mkdirSync(pictures, { recursive: true });
const { page: html } = await import(`data:text/javascript;base64,${Buffer.from(made.outputFiles[0].contents).toString('base64')}`);

const server = session(process.env.CHORDLANG ?? 'chordlang');
const uri = 'file:///lesson.chl';
const bars = name => `section ${name}\n\n${['Cmaj7', 'Am7', 'Dm7', 'G7'].map(c => `| ${c}\n    1 C4  2 E4  3 G4  4 E4\n`).join('\n')}\n`;
let text = `title Live <img src=x onerror=alert(1)>\nby A & B\nkey C major\ntempo 120\n> Let *all* ring.\n\n${Array.from({ length: 50 }, (_, i) => bars(`Part ${i + 1}`)).join('')}`;
let known = [];
const sheet = async () => {
  const answer = await server.request('chordlang/sheet', { textDocument: { uri }, known });
  known = [answer.look.id, ...answer.parts.map(p => p.id)];
  return answer;
};
const lines = answer => answer.parts.filter(p => p.line);
// As a dark theme of the editor would have it.
const night = { 'editor-background': '#1e1e1e', 'editor-foreground': '#d4d4d4', descriptionForeground: '#a8a8a8', 'textLink-foreground': '#5cb2ff', 'editorWarning-foreground': '#d9b44a', 'editorError-foreground': '#ff7b72' };

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const browser = await chromium.launch({ executablePath, args: ['--disable-gpu', ...(process.getuid?.() === 0 ? ['--no-sandbox'] : [])] });
try {
  await server.request('initialize', { processId: null, rootUri: null, capabilities: {} });
  server.notify('initialized', {});
  server.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'chordlang', version: 1, text } });

  const trouble = [], asked = [];
  const open = async (viewport, before) => {
    const page = await browser.newPage({ viewport });
    page.on('console', m => trouble.push(m.text()));
    page.on('pageerror', e => trouble.push(String(e)));
    page.on('dialog', d => { trouble.push(d.message()); void d.dismiss(); });
    page.on('request', r => asked.push(r.url()));
    if (before)
      await page.addInitScript(before);
    await page.addInitScript(() => {
      globalThis.said = [];
      globalThis.acquireVsCodeApi = () => ({ postMessage: m => globalThis.said.push(structuredClone(m)), getState: () => globalThis.state, setState: s => { globalThis.state = structuredClone(s); } });
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
    return { page, tell: message => page.evaluate(m => globalThis.tell(m), message), said: () => page.evaluate(() => globalThis.said.splice(0)) };
  };
  const { page, tell, said } = await open({ width: 900, height: 700 });
  const plain = { large: false, numerals: false, skeleton: false };
  assert.deepEqual(await said(), [{ kind: 'ready', choices: plain, width: 760 }]);

  let answer = await sheet();
  const whole = await tell({ kind: 'sheet', sheet: answer });
  assert.equal(await page.locator('.system svg.sys').count(), lines(answer).length);
  assert.equal(await page.locator('h1').innerText(), 'Live <img src=x onerror=alert(1)>');
  assert.equal(await page.locator('main img').count(), 0);
  // What the page to hand out says around its lines stands here too.
  assert.equal(await page.locator('.by').innerText(), 'A & B');
  assert.equal(await page.locator('.lead em').innerText(), 'all');
  assert.deepEqual(await page.locator('h2').evaluateAll(all => all.slice(0, 3).map(h => h.textContent)), ['Part 1', 'Part 2', 'Part 3']);

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
  assert.ok(await page.locator('.findings').first().isHidden());

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

  // The keyboard alone: each line is one stop, arrows go through its notes and chords, Enter leads to the text; a chord is explained on the way.
  await page.locator('.notes').nth(1).focus();
  await said();
  await page.keyboard.press('ArrowRight');
  const chosen = await page.evaluate(() => document.getElementById(document.activeElement.getAttribute('aria-activedescendant')).textContent);
  assert.match(chosen, /^Cmaj7, bar 5, count 1$/);
  assert.equal((await said()).at(-1).kind, 'explain');
  const walked = [];
  for (let i = 0; i < 40; i++) {
    await page.keyboard.press('ArrowRight');
    walked.push(await page.evaluate(() => document.getElementById(document.activeElement.getAttribute('aria-activedescendant')).textContent));
  }
  const second = lines(answer)[1].line;
  const notes = await page.locator('.notes').nth(1).evaluate(n => new Set([...n.querySelectorAll('.tab [data-pitch]')].map(s => s.dataset.from)).size);
  assert.equal(new Set(walked).size + 1, await page.locator('.notes').nth(1).locator('[role=option]').count());
  assert.equal(walked.filter((w, i) => /string \d fret \d+, bar/.test(w) && walked.indexOf(w) === i).length, notes);
  await said();
  await page.keyboard.press('Enter');
  const [there] = await said();
  assert.equal(there.kind, 'go');
  assert.ok(there.from > second.from && there.to <= second.to);
  assert.equal(text.slice(there.from, there.to), 'E4');
  await page.keyboard.press('Home');
  await tell({ kind: 'findings', found: [{ from: second.from, to: second.from + 1, level: 'warning', message: 'look here' }] });
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement.textContent), 'warning: look here');
  await said();
  await page.keyboard.press('Enter');
  assert.deepEqual(await said(), [{ kind: 'go', from: second.from, to: second.from + 1 }]);
  await tell({ kind: 'findings', found: [] });

  // Large print, numerals, what remains: chosen on the page, drawn by the server.
  await page.locator('[data-choice=skeleton]').focus();
  await page.keyboard.press('Enter');
  await page.locator('[data-choice=large]').click();
  const now = { large: true, numerals: false, skeleton: true };
  assert.deepEqual((await said()).filter(m => m.kind === 'chosen').at(-1), { kind: 'chosen', choices: now, width: 500 });
  assert.deepEqual(await page.evaluate(() => globalThis.state), now);
  const large = await server.request('chordlang/sheet', { textDocument: { uri }, known, ...now });
  const count = lines(answer).length;
  await tell({ kind: 'sheet', sheet: large });
  assert.ok(lines(large).length > count);
  assert.ok(await page.locator('.sys .bone').count() > 0);
  await page.screenshot({ path: join(pictures, 'large.png') });
  for (const choice of ['skeleton', 'large'])
    await page.locator(`[data-choice=${choice}]`).click();
  known = [];
  await tell({ kind: 'sheet', sheet: answer = await sheet() });
  assert.equal(await page.locator('.sys .bone').count(), 0);

  // A narrow panel asks for shorter lines, and has them in the size of paper.
  await said();
  await page.setViewportSize({ width: 480, height: 700 });
  await page.waitForFunction(() => globalThis.said.length > 0);
  const [narrow] = await said();
  assert.deepEqual(narrow, { kind: 'chosen', choices: plain, width: 380 });
  await tell({ kind: 'sheet', sheet: await server.request('chordlang/sheet', { textDocument: { uri }, width: narrow.width }) });
  const scale = await page.locator('.sys').first().evaluate(s => s.getBoundingClientRect().width / s.viewBox.baseVal.width);
  assert.ok(scale > 1.05, `the drawing has ${scale} of its size`);
  await page.screenshot({ path: join(pictures, 'narrow.png') });
  await page.setViewportSize({ width: 900, height: 700 });
  await page.waitForFunction(() => globalThis.said.length > 0);
  known = [];
  await tell({ kind: 'sheet', sheet: answer = await sheet() });

  // An accessibility checker reads the page, by day and by night.
  await page.evaluate(axe);
  for (const theme of ['light', 'dark']) {
    await page.evaluate(colours => { for (const [name, colour] of Object.entries(colours)) document.documentElement.style.setProperty(`--vscode-${name}`, colour); }, theme === 'dark' ? night : {});
    await page.emulateMedia({ colorScheme: theme });
    await tell({ kind: 'caret', offset: text.indexOf('E4') });
    await tell({ kind: 'findings', found: [{ from: text.indexOf('G4'), to: text.indexOf('G4') + 2, level: 'warning', message: 'one fret off' }] });
    await page.evaluate(() => scrollTo(0, 0));
    await page.screenshot({ path: join(pictures, `${theme}.png`) });
    const violations = await page.evaluate(async () => (await globalThis.axe.run()).violations.map(v => `${v.impact}: ${v.id}: ${v.nodes.slice(0, 3).map(n => n.html).join(' ')}`));
    assert.deepEqual(violations.filter(v => /^(serious|critical)/.test(v)), [], theme);
  }
  await tell({ kind: 'findings', found: [] });
  await page.evaluate(names => { for (const name of names) document.documentElement.style.removeProperty(`--vscode-${name}`); }, Object.keys(night));

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
  assert.equal(answer.parts.filter(p => p.html ?? p.line?.svg).length, 1);
  assert.equal(answer.look.style, undefined);
  const atWork = await page.evaluate(m => { const began = performance.now(); window.dispatchEvent(new MessageEvent('message', { data: m })); return performance.now() - began; }, { kind: 'sheet', sheet: answer });
  const redrawn = atWork + await page.evaluate(() => { const began = performance.now(); document.body.getBoundingClientRect(); return performance.now() - began; });
  const same = await page.evaluate(() => { const now = [...document.querySelectorAll('.system')]; return [now.length, now.filter((e, i) => e === globalThis.before[i]).length]; });
  assert.deepEqual(same, [lines(answer).length, lines(answer).length - 1]);
  // What was kept leads to where its text stands now.
  await said();
  await page.locator('.system').last().locator('.tab [data-fret]').nth(2).click();
  const late = (await said()).find(m => m.kind === 'go');
  assert.equal(text.slice(late.from, late.to), 'G4');

  // Heard: in a page of its own, whose clock is turned by hand. Nothing is asked for and nothing sounds before a word is pressed.
  const ear = await open({ width: 1300, height: 900 }, tamed);
  known = [];
  await ear.said();
  await ear.tell({ kind: 'sheet', sheet: answer = await sheet() });
  assert.deepEqual(await ear.said(), []);
  assert.equal(await ear.page.evaluate(() => globalThis.world.contexts), 0);
  const hear = async () => {
    assert.deepEqual((await ear.said()).map(m => m.kind), ['hear']);
    const heard = await server.request('chordlang/heard', { textDocument: { uri } });
    await ear.tell({ kind: 'heard', heard });
    await ear.page.waitForFunction(() => globalThis.world.playing(), undefined, { polling: 'raf' });
    return JSON.parse(heard.music);
  };
  // By the keyboard: from the notes of the second line on to the words in its margin.
  await ear.page.locator('.notes').nth(1).focus();
  const passed = [];
  for (let i = 0; i < 3; i++) {
    await ear.page.keyboard.press('Tab');
    passed.push(await ear.page.evaluate(() => document.activeElement.textContent));
  }
  assert.deepEqual(passed, ['Go to the text of bars 5 to 8', 'Hear from here', 'Hear these bars again']);
  await ear.page.keyboard.press('Enter');
  const music = await hear();
  assert.equal(await ear.page.evaluate(() => document.activeElement.textContent), 'Stop');
  assert.ok(await ear.page.locator('.practise').count() > 0);
  // Two rounds of four bars at 120: each note where the model has it.
  await ear.page.evaluate(() => globalThis.world.advance(15));
  const played = music.notes.filter(n => music.bars[n[4]][0] >= 4 && music.bars[n[4]][0] <= 7);
  const start = music.bars.find(b => b[0] === 4)[1];
  const wanted = [0, 8].flatMap(round => played.map(n => round + n[0] - start));
  const struck = (await ear.page.evaluate(() => globalThis.world.started.splice(0).map(s => s[0]))).slice(0, wanted.length);
  assert.equal(played.length, 16);
  wanted.forEach((w, i) => assert.ok(Math.abs(struck[i] - struck[0] - w) < 0.002, `note ${i} at ${struck[i] - struck[0]}, not ${w}`));
  await ear.page.waitForFunction(() => document.querySelectorAll('.sys .now').length > 0, undefined, { polling: 'raf' });
  assert.deepEqual(await ear.page.evaluate(() => [...new Set([...document.querySelectorAll('.sys .now')].map(s => [...document.querySelectorAll('.system')].indexOf(s.closest('.system'))))]), [1]);
  await ear.page.screenshot({ path: join(pictures, 'heard.png') });
  await ear.page.keyboard.press('Escape');
  assert.equal(await ear.page.evaluate(() => document.activeElement.textContent), 'Hear these bars again');
  await ear.page.evaluate(() => globalThis.world.advance(3));
  await ear.page.evaluate(() => globalThis.world.started.splice(0));
  // What is known is not asked for again; after an edit it is, and what was edited is heard.
  await ear.page.locator('.system').first().locator('[data-hear=count]').click();
  await ear.page.locator('.system').first().locator('[data-hear=from]').click();
  await ear.page.waitForFunction(() => globalThis.world.playing(), undefined, { polling: 'raf' });
  assert.deepEqual(await ear.said(), []);
  await ear.page.evaluate(() => globalThis.world.advance(2));
  assert.equal(await ear.page.evaluate(() => globalThis.world.pitches.filter(p => p === 0).length), 2);
  await ear.page.keyboard.press('Escape');
  text = text.replace('3 G4', '3 A4');
  server.notify('textDocument/didChange', { textDocument: { uri, version: 3 }, contentChanges: [{ text }] });
  await ear.tell({ kind: 'sheet', sheet: answer = await sheet() });
  assert.equal(await ear.page.locator('.system').first().locator('[data-hear=count]').getAttribute('aria-pressed'), 'true');
  await ear.page.locator('.system').first().locator('[data-hear=from]').click();
  assert.equal((await hear()).notes[2][2], 69);
  await ear.page.keyboard.press('Escape');

  assert.deepEqual(trouble, []);
  assert.deepEqual(asked, ['http://sheet.test/', 'http://sheet.test/']);
  console.log(`ok: the live sheet; ${lines(answer).length} lines of ${50 * 4} bars: drawn in ${whole.toFixed(0)} ms, one bar changed: answered in ${answered.toFixed(0)} ms, page at work for ${atWork.toFixed(1)} ms, laid out after ${redrawn.toFixed(1)} ms`);
} finally {
  await browser.close();
  await server.end();
}
