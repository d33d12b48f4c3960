// Opens the sheets of a folder in a headless browser and writes down what it sees, for the tests with the trait Needs=browser.
// usage: node sheets.mjs FOLDER BROWSER: reads FOLDER/*.html, writes FOLDER/*.png (light), *-dark.png, *.pdf and FOLDER/seen.json
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const [folder, executablePath] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const root = process.getuid?.() === 0;
const browser = await chromium.launch({ executablePath, args: ['--disable-gpu', ...(root ? ['--no-sandbox'] : [])] });
const seen = {};

// Boxes of ink, not of lines of text: from the height of capitals above the baseline to the depth of descenders below it.
function boxes() {
  return [...document.querySelectorAll('svg.sys text')].map(text => {
    const matrix = text.getScreenCTM();
    const size = parseFloat(getComputedStyle(text).fontSize);
    const box = text.getBBox();
    const baseline = parseFloat(text.getAttribute('y'));
    const deep = /[gpqyj()/,]/.test(text.textContent);
    return {
      words: text.textContent,
      kind: text.getAttribute('class'),
      system: [...document.querySelectorAll('svg.sys')].indexOf(text.closest('svg')),
      data: { ...text.dataset, ...(text.closest('g[data-symbol]')?.dataset ?? {}) },
      group: text.closest('g[data-symbol], g[data-grip]')?.dataset.from ?? null,
      scale: matrix.a,
      left: matrix.e + box.x * matrix.a,
      right: matrix.e + (box.x + box.width) * matrix.a,
      top: matrix.f + (baseline - 0.72 * size) * matrix.d,
      bottom: matrix.f + (baseline + (deep ? 0.21 : 0.01) * size) * matrix.d,
    };
  });
}

for (const file of readdirSync(folder).filter(f => f.endsWith('.html')).sort()) {
  const name = file.replace(/\.html$/, '');
  const context = await browser.newContext({ viewport: { width: 1000, height: 800 }, bypassCSP: false });
  const page = await context.newPage();
  const trouble = [];
  const asked = [];
  page.on('console', m => trouble.push(m.text()));
  page.on('pageerror', e => trouble.push(String(e)));
  page.on('dialog', d => { trouble.push('dialog ' + d.message()); d.dismiss(); });
  page.on('request', r => asked.push(r.url()));
  await page.goto(pathToFileURL(resolve(folder, file)).href);
  const facts = await page.evaluate(`(${boxes})()`);
  const scripts = await page.evaluate(() => document.scripts.length + [...document.querySelectorAll('*')].filter(e => [...e.attributes].some(a => /^on/i.test(a.name))).length);
  const print = await page.evaluate(() => [...document.querySelectorAll('.system')].map(s => s.getBoundingClientRect().height));
  await page.screenshot({ path: join(folder, name + '.png'), fullPage: true });
  await page.pdf({ path: join(folder, name + '.pdf'), format: 'A4', preferCSSPageSize: true });
  await page.emulateMedia({ media: 'print' });
  const unbroken = await page.evaluate(() => [...document.querySelectorAll('.system')].every(s => getComputedStyle(s).breakInside === 'avoid'));
  const violations = {};
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ media: 'screen', colorScheme });
    if (colorScheme === 'dark')
      await page.screenshot({ path: join(folder, name + '-dark.png'), fullPage: true });
    await page.evaluate(axe);
    violations[colorScheme] = await page.evaluate(async () => (await globalThis.axe.run()).violations.map(v => `${v.impact}: ${v.id}: ${v.nodes.slice(0, 3).map(n => n.html).join(' ')}`));
  }
  seen[name] = { texts: facts, scripts, trouble, asked: asked.length, heights: print, unbroken, ...violations };
  await context.close();
}
await browser.close();
writeFileSync(join(folder, 'seen.json'), JSON.stringify(seen));
