// Holds the TextMate grammar to every clean sample, to every example and to every element of the language reference.
// usage: node samples.mjs     run by tests/Editors/run; exit code 1 where a word stands without a colour or an element without a test
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..', '..');
const require = createRequire(join(root, 'editor-client', 'package.json'));
const tester = createRequire(require.resolve('vscode-tmgrammar-test/package.json'));
const textmate = tester('vscode-textmate'), oniguruma = tester('vscode-oniguruma');
await oniguruma.loadWASM(readFileSync(tester.resolve('vscode-oniguruma/release/onig.wasm')).buffer);

const path = join(root, 'editor-client', 'syntaxes', 'chordlang.tmLanguage.json');
const registry = new textmate.Registry({
  onigLib: Promise.resolve({ createOnigScanner: p => new oniguruma.OnigScanner(p), createOnigString: s => new oniguruma.OnigString(s) }),
  loadGrammar: async scope => scope === 'source.chordlang' ? textmate.parseRawGrammar(readFileSync(path, 'utf8'), path) : null,
});
const grammar = await registry.loadGrammar('source.chordlang');

/** The words of a text that have no scope beside those of the file and the line. */
export function uncoloured(text) {
  let state = textmate.INITIAL;
  const found = [];
  for (const [i, line] of text.split(/\r\n|\n|\r/).entries()) {
    const read = grammar.tokenizeLine(line, state);
    state = read.ruleStack;
    for (const token of read.tokens) {
      const word = line.slice(token.startIndex, token.endIndex).trim();
      if (word !== '' && token.scopes.every(s => s === 'source.chordlang' || s.startsWith('meta.')))
        found.push(`line ${i + 1}: '${word}'`);
    }
  }
  return found;
}

let passed = 0;
const failures = [];
const hold = (what, faults) => faults.length === 0 ? passed++ : failures.push(`${what}: ${faults.slice(0, 5).join(', ')}`);

const valid = join(root, 'samples', 'valid');
for (const file of readdirSync(valid, { recursive: true }).filter(f => f.endsWith('.chl')))
  hold(`samples/valid/${file}`, uncoloured(readFileSync(join(valid, file), 'utf8')));

// In a broken sample only what cannot be read may stand uncoloured: no grammar may stop, and no line may colour the next.
const broken = join(root, 'samples', 'broken');
for (const file of readdirSync(broken, { recursive: true }).filter(f => f.endsWith('.chl'))) {
  const lines = readFileSync(join(broken, file), 'utf8').split('\n');
  hold(`samples/broken/${file}`, lines.flatMap((line, i) =>
    uncoloured(line).join() === uncoloured(lines.slice(0, i + 1).join('\n')).filter(f => f.startsWith(`line ${i + 1}:`)).map(f => f.replace(/^line \d+/, 'line 1')).join()
      ? [] : [`line ${i + 1} is coloured by the lines above`]));
}

const reference = readFileSync(join(root, 'grammar', 'LANGUAGE.md'), 'utf8');
for (const [i, fence] of [...reference.matchAll(/^```chl\n([^]*?)^```$/gm)].entries())
  hold(`example ${i + 1} of grammar/LANGUAGE.md`, uncoloured(fence[1]));

// Every element: what stands in the first cell of a table's row, and every line of the list of expectations.
const elements = readFileSync(join(here, 'elements.chl'), 'utf8');
const cells = [...reference.matchAll(/^\| (`.+?) \| /gm)].flatMap(m => [...m[1].matchAll(/`([^`]+)`/g)].map(c => c[1].replace('\\|', '|')));
const expectations = [...reference.matchAll(/^expect .*$/gm)].map(m => m[0]);
if (cells.length < 60 || expectations.length < 10)
  failures.push(`only ${cells.length} elements and ${expectations.length} expectations were found in grammar/LANGUAGE.md`);
const sources = elements.split('\n').filter(l => !/^\/\/\s*(\^|<-)/.test(l)).map(l => ` ${l.trim().replace(/ +/g, ' ')} `);
for (const element of [...cells, ...expectations])
  hold(`grammar/LANGUAGE.md's ${element} has no line in elements.chl`, sources.some(s => s.includes(` ${element} `)) ? [] : ['add one, with its colours']);

for (const failure of failures)
  console.log(failure);
console.log(`grammar over samples and reference: ${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length > 0 ? 1 : 0;
