// Holds the TextMate grammar to every clean sample, to every example and to every element of the language reference.
// usage: node samples.mjs     run by tests/Editors/run; exit code 1 where a word stands without a colour or an element without a test
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { root, uncoloured } from './grammar.mjs';

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
const elements = readFileSync(new URL('elements.chl', import.meta.url), 'utf8');
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
