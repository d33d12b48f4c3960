// Plays sheets with sound in a headless browser whose audio clock and timers are turned by hand, and writes down what would have sounded when.
// usage: node hear.mjs FOLDER BROWSER: reads FOLDER/*.html, writes FOLDER/heard.json
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { tamed } from './tamed.mjs';

const [folder, executablePath] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const root = process.getuid?.() === 0;
const browser = await chromium.launch({ executablePath, args: ['--disable-gpu', ...(root ? ['--no-sandbox'] : [])] });

const heard = {};
for (const file of readdirSync(folder).filter(f => f.endsWith('.html')).sort()) {
  const context = await browser.newContext({ viewport: { width: 1300, height: 900 } });
  const page = await context.newPage();
  const trouble = [], asked = [];
  page.on('console', m => trouble.push(m.text()));
  page.on('pageerror', e => trouble.push(String(e)));
  page.on('request', r => asked.push(r.url()));
  await page.addInitScript(tamed);
  await page.goto(pathToFileURL(resolve(folder, file)).href);
  const advance = seconds => page.evaluate(s => globalThis.world.advance(s), seconds);
  const since = () => page.evaluate(() => globalThis.world.started.splice(0));
  const now = () => page.evaluate(() => globalThis.world.now());
  const focused = () => page.evaluate(() => [...document.querySelectorAll('.hear button, .hear summary')].indexOf(document.activeElement));
  const at = words => page.evaluate(w => [...document.querySelectorAll('.hear button, .hear summary')].findIndex(b => b.textContent === w && b.checkVisibility()), words);
  // By the keyboard alone: forwards until it is reached.
  const reach = async index => {
    if (index < 0)
      throw new Error(`${file}: there is no such word`);
    for (let i = 0; i < 2000 && (await focused()) !== index; i++)
      await page.keyboard.press('Tab');
    if ((await focused()) !== index)
      throw new Error(`${file}: word ${index} is out of the keyboard's reach`);
  };
  const press = async words => { await reach(await at(words)); await page.keyboard.press('Enter'); };
  const play = async words => { await press(words); await page.waitForFunction(() => globalThis.world.playing(), undefined, { polling: 'raf' }); };
  const facts = { untouched: await page.evaluate(() => globalThis.world.contexts) };

  // All at once: the whole piece.
  const length = await page.evaluate(() => { const b = JSON.parse(document.getElementById('heard').textContent).bars.at(-1); return b[1] + b[2]; });
  let base = await now();
  await play('Hear from here');
  facts.stop = await page.evaluate(() => document.activeElement.textContent);
  await advance(length + 3);
  facts.whole = { base, started: await since() };
  facts.after = await page.evaluate(() => document.activeElement.textContent);

  // The first line over and over; Escape ends it.
  base = await now();
  await play(await page.evaluate(() => document.querySelector('[data-hear=again]').textContent));
  await advance(40);
  await page.keyboard.press('Escape');
  facts.again = { base, started: await since() };
  await advance(5);
  facts.silent = (await since()).length === 0;

  // Slower, and counted in.
  await press('Slower');
  await press('Count me in');
  base = await now();
  await play('Hear from here');
  await advance(20);
  facts.slower = { base, started: await since() };
  await page.keyboard.press('Escape');

  const voices = await page.evaluate(() => document.querySelectorAll('.hear')[0].querySelectorAll('[data-hear=voice]').length);
  facts.left = voices === 0 || await (async () => {
    await page.evaluate(() => { globalThis.world.ramps.length = 0; });
    await press(await page.evaluate(() => document.querySelector('[data-hear=voice]').textContent));
    return page.evaluate(() => globalThis.world.ramps.includes(0) && document.activeElement.getAttribute('aria-pressed') === 'true');
  })();

  // One turn through the page, with the folded words open.
  await page.evaluate(() => { for (const d of document.querySelectorAll('details')) d.open = true; document.activeElement.blur(); });
  const all = await page.evaluate(() => document.querySelectorAll('.hear button, .hear summary').length);
  const visited = new Set();
  for (let i = 0; i < all + 5; i++) {
    await page.keyboard.press('Tab');
    visited.add(await focused());
  }
  visited.delete(-1);
  facts.words = [all, visited.size];
  facts.pitches = await page.evaluate(() => globalThis.world.pitches);
  facts.scripts = await page.evaluate(() => [...document.querySelectorAll('*')].filter(e => [...e.attributes].some(a => /^on/i.test(a.name))).length);
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await page.screenshot({ path: join(folder, file.replace('.html', `-${colorScheme}.png`)) });
    await page.evaluate(axe);
    // The checker waits by timers, which stand still here unless they are turned.
    facts[colorScheme] = await page.evaluate(async () => {
      let found = null;
      globalThis.axe.run().then(r => { found = r.violations.map(v => `${v.impact}: ${v.id}: ${v.nodes.slice(0, 3).map(n => n.html).join(' ')}`); }, e => { found = [`critical: ${e}`]; });
      for (let i = 0; i < 2000 && !found; i++) {
        await globalThis.world.advance(0.1);
        await new Promise(r => requestAnimationFrame(r));
      }
      return found ?? ['critical: the checker did not answer'];
    });
  }
  heard[file.replace(/\.html$/, '')] = { ...facts, trouble, asked: asked.length };
  await context.close();
}
await browser.close();
writeFileSync(join(folder, 'heard.json'), JSON.stringify(heard));
