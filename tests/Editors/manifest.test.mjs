// Holds what the VS Code extension declares: names for everybody, words kept whole, lines indented, snippets that check clean, settings that are described.
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import test from 'node:test';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const client = join(root, 'editor-client');
const text = file => readFileSync(join(client, file), 'utf8');
const json = file => JSON.parse(text(file));
const manifest = json('package.json');
const contributes = manifest.contributes;
const source = readdirSync(join(client, 'source')).map(f => text(join('source', f))).join('\n');
const choices = readFileSync(join(root, 'server', 'ChordLang.Server', 'Lsp', 'ChoiceReader.cs'), 'utf8');
const chordlang = process.env.CHORDLANG ?? 'chordlang';

test('every command is named, sorted under one word, and carried out', () => {
  const named = contributes.commands.map(c => c.command.replace('chordlang.', ''));
  for (const command of contributes.commands) {
    assert.equal(command.category, 'ChordLang');
    assert.match(command.title, /^[A-Z].{3,}/);
  }
  const carried = [...source.slice(source.indexOf('const commands:')).split('};')[0].matchAll(/^ {4}([a-z]+): /gm)].map(m => m[1]);
  assert.deepEqual(carried.toSorted(), named.toSorted());
});

test('no command is offered that the program may not answer', () => {
  const asked = ['describe', 'transpose', 'export', 'practice', 'hear'];
  for (const word of asked)
    assert.ok(contributes.menus.commandPalette.some(m => m.command === `chordlang.${word}` && m.when === `chordlang.can.${word}`), word);
});

test('every setting is described, has a scope and a default, and stands in the README', () => {
  const settings = contributes.configuration.properties;
  for (const [name, setting] of Object.entries(settings)) {
    assert.ok((setting.description ?? setting.markdownDescription).length > 20, name);
    assert.ok(setting.scope && setting.default !== undefined, name);
    assert.equal((setting.enumDescriptions ?? []).length, (setting.enum ?? []).length, name);
    // What the extension does not read itself, the client library or the server asks for.
    const short = name.replace('chordlang.', '');
    assert.ok(short === 'trace.server' || source.includes(`'${short}'`) || choices.includes(`"${short.split('.').at(-1)}"`), `${name} is read nowhere`);
  }
  assert.deepEqual([...text('README.md').matchAll(/^\| `(chordlang\.[a-zA-Z.]+)` \|/gm)].map(m => m[1]).toSorted(), Object.keys(settings).toSorted());
});

test('a folder that is not trusted cannot name the program that is run', () => {
  assert.equal(manifest.capabilities.untrustedWorkspaces.supported, 'limited');
  assert.deepEqual(manifest.capabilities.untrustedWorkspaces.restrictedConfigurations, ['chordlang.server.path']);
});

test('every file that is declared is there', () => {
  const declared = [manifest.icon, ...contributes.languages.filter(l => l.extensions).flatMap(l => [l.configuration, l.icon.light, l.icon.dark]), ...contributes.grammars.map(g => g.path), ...contributes.jsonValidation.map(v => v.url),
    ...contributes.snippets.map(s => s.path), ...contributes.walkthroughs.flatMap(w => w.steps.map(s => s.media.markdown))];
  assert.ok(declared.length > 10);
  for (const file of declared)
    assert.ok(existsSync(join(client, file)), file);
});

test('the walkthrough has five steps, each with a command that exists', () => {
  const steps = contributes.walkthroughs[0].steps;
  assert.equal(steps.length, 5);
  for (const step of steps) {
    const command = /\(command:([\w.]+)\)/.exec(step.description)[1];
    assert.ok(command.startsWith('editor.action.') || contributes.commands.some(c => c.command === command), command);
    assert.deepEqual(step.completionEvents, [`onCommand:${command}`]);
  }
});

test('no telemetry and no download: nothing in the extension speaks with a network', () => {
  assert.doesNotMatch(source, /\bfetch\(|node:https?|node:net|createTelemetryLogger|XMLHttpRequest/);
  assert.match(text('README.md'), /no telemetry/);
});

const pattern = json('language-configuration.json').wordPattern;
const words = line => line.match(new RegExp(pattern.pattern, `${pattern.flags}g`));

test('a chord, a grip and a count are one word', () => {
  for (const word of ['C#m7b5/G', 'x-3-5-4-5-x', '3&', '3+2/5', 'C13(b9,#11)', 'Cm(maj7)', 'E♭maj7', 'F♯m7', 'C°7', 'C+', 'C6/9', '8@2', 'C4+E4+A4', '12@3+12@2', 'N.C.', '%', 'low-drop+7',
    'palm-mute', 'x35453', 'p-i-m', 'CΔ', 'Cø', '2trip', 'ring@1', "don't"])
    assert.deepEqual(words(`| ${word} |`), [word], word);
  assert.deepEqual(words('> Give it time, then stop. "dig in"'), ['Give', 'it', 'time', 'then', 'stop', 'dig', 'in']);
  assert.deepEqual(words('    top:  2& D4   3 G4 = 8@1'), ['top', '2&', 'D4', '3', 'G4', '8@1']);
  assert.deepEqual(words('|Gmaj7|E7'), ['Gmaj7', 'E7']);
});

test('Enter under a chart line of one bar indents, under one of several does not', () => {
  const rule = line => json('language-configuration.json').onEnterRules.find(r => new RegExp(r.beforeText).test(line))?.action.indent;
  assert.equal(rule('| Gmaj7'), 'indent');
  assert.equal(rule('| Am7   3 D7b9'), 'indent');
  assert.equal(rule('| Em7 | A7'), 'none');
  assert.equal(rule('    1 3-x-4-4-3-x'), undefined);
  assert.equal(rule('    '), 'outdent');
});

test('a line that stands at the margin goes there when it is typed', () => {
  const rules = json('language-configuration.json').indentationRules;
  for (const line of ['    | Gmaj7', '    > Let it ring.', '    section Bridge', '    // allow hand-wide-stretch: yes', '    end'])
    assert.match(line, new RegExp(rules.decreaseIndentPattern), line);
  for (const line of ['    1 3-x-4-4-3-x', '    top: 2& D4', '| Gmaj7'])
    assert.doesNotMatch(line, new RegExp(rules.decreaseIndentPattern), line);
});

// What a snippet says before anything is typed into it.
const plain = body => body.join('\n').replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1').replace(/\$\{\d+:([^}]*)\}/g, '$1').replace(/\$\{?\d+\}?/g, '');
const before = { Run: '| C\n', Triplet: '| C\n', Shape: '', Assignment: '' };

test('every snippet checks clean as it comes', () => {
  for (const [name, snippet] of Object.entries(json('snippets/chordlang.json'))) {
    assert.ok(snippet.description, name);
    const body = plain(snippet.body);
    const lesson = snippet.prefix === 'header' ? body : `title   Snippet\nkey     C major\nmeter   4/4\n\n${before[name] ?? ''}${body}\n`;
    const whole = snippet.prefix === 'allow' || snippet.prefix === 'expect' ? undefined : spawnSync(chordlang, ['check', '-'], { input: lesson, encoding: 'utf8' });
    assert.ok(whole === undefined || whole.status === 0, `${name}\n${lesson}\n${whole?.stdout}`);
  }
});

test('the sample of the walkthrough has the one finding that its pages speak of, and its first fix mends it', () => {
  const lesson = join(client, 'samples', 'one-finger-off.chl');
  const read = spawnSync(chordlang, ['check', lesson, '--format', 'json'], { encoding: 'utf8' });
  const findings = JSON.parse(read.stdout).files[0].findings;
  assert.deepEqual(findings.map(f => f.code), ['name-fret-slip']);
  assert.deepEqual(findings[0].fixes.slice(0, 2).map(f => f.title), [...text('walkthrough/fix.md').matchAll(/^- \*(.+?)\*/gm)].map(m => m[1]));
  assert.equal(text('walkthrough/finding.md').match(/^> [^]*?(?=\n\n)/m)[0].replaceAll(/\n?> /g, ' ').trim(), findings[0].message);
});

test('the problem matcher reads what check prints', () => {
  const [first, second] = contributes.problemMatchers[0].pattern.map(p => new RegExp(p.regexp));
  const printed = spawnSync(chordlang, ['check', join(root, 'samples', 'broken')], { encoding: 'utf8', maxBuffer: 1 << 26 }).stdout.split('\n');
  const told = JSON.parse(spawnSync(chordlang, ['check', join(root, 'samples', 'broken'), '--format', 'json'], { encoding: 'utf8', maxBuffer: 1 << 26 }).stdout)
    .files.flatMap(f => f.findings.map(x => `${f.path}:${x.range.start.line + 1} ${x.severity} ${x.message}`));
  const matched = printed.flatMap((line, i) => first.test(line) && second.test(printed[i + 1] ?? '')
    ? [`${line.match(first)[1]}:${line.match(first)[2]} ${printed[i + 1].match(second)[1].replace(/^info$/, 'information')} ${printed[i + 1].match(second)[2]}`] : []);
  assert.ok(told.length > 50);
  assert.deepEqual(matched, told);
});

test('the version of the extension is that of the program', () => {
  assert.equal(execFileSync(chordlang, ['--version'], { encoding: 'utf8' }).trim(), `chordlang ${manifest.version}`);
});
