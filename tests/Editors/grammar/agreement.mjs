// Holds the TextMate grammar against the parser: in every clean sample and every example, what the server colours as one thing the grammar colours as that thing.
// usage: node agreement.mjs     CHORDLANG is the program; run by tests/Editors/run
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { session } from '../workbench/server.mjs';
import { root, scopesOf } from './grammar.mjs';

// What each type of the server's may be called by the grammar; in a comment the word inside has a scope of its own.
const may = {
  keyword: ['keyword.'],
  parameter: ['variable.parameter.voice.'],
  number: ['constant.numeric.', 'constant.other.finger.', 'constant.language.', 'variable.other.constant.pitch.', 'string.unquoted.setting.'],
  operator: ['keyword.operator.', 'constant.language.', 'markup.quote.', 'comment.'],
  type: ['entity.name.type.chord.'],
  variable: ['variable.other.constant.pitch.', 'entity.name.function.grip.'],
  function: ['entity.name.', 'variable.other.shape.', 'comment.'],
  decorator: ['storage.modifier.mark.'],
  string: ['string.', 'markup.quote.', 'comment.'],
  comment: ['comment.'],
};

const server = session(process.env.CHORDLANG ?? 'chordlang');
const started = await server.request('initialize', {
  processId: process.pid, rootUri: null,
  capabilities: { textDocument: { semanticTokens: { requests: { full: true }, tokenTypes: Object.keys(may), tokenModifiers: [], formats: ['relative'] } } },
});
server.notify('initialized', {});
const legend = started.capabilities.semanticTokensProvider?.legend.tokenTypes;

const valid = join(root, 'samples', 'valid');
const texts = [
  ...readdirSync(valid, { recursive: true }).filter(f => f.endsWith('.chl')).map(f => [`samples/valid/${f}`, readFileSync(join(valid, f), 'utf8')]),
  ...[...readFileSync(join(root, 'grammar', 'LANGUAGE.md'), 'utf8').matchAll(/^```chl\n([^]*?)^```$/gm)].map((m, i) => [`example ${i + 1} of grammar/LANGUAGE.md`, m[1]]),
];
let passed = 0, words = 0;
const failures = [];
for (const [i, [name, text]] of legend ? texts.entries() : []) {
  const uri = `untitled:${i}.chl`;
  server.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'chordlang', version: 1, text } });
  const { data } = await server.request('textDocument/semanticTokens/full', { textDocument: { uri } });
  server.notify('textDocument/didClose', { textDocument: { uri } });
  const scopes = scopesOf(text), lines = text.split('\n'), faults = [];
  for (let at = 0, line = 0, from = 0; at < data.length; at += 5) {
    [line, from] = data[at] > 0 ? [line + data[at], data[at + 1]] : [line, from + data[at + 1]];
    const type = legend[data[at + 3]];
    words++;
    for (let c = from; c < from + data[at + 2]; c++)
      if (lines[line][c] !== ' ' && !(scopes[line][c] ?? []).some(scope => may[type].some(s => scope.startsWith(s)))) {
        faults.push(`line ${line + 1}, '${lines[line].slice(from, from + data[at + 2])}' is ${type} for the parser and ${scopes[line][c]?.join(' ') || 'nothing'} for the grammar`);
        break;
      }
  }
  faults.length === 0 ? passed++ : failures.push(`${name}: ${faults.slice(0, 3).join('; ')}`);
}
await server.end();

if (!legend)
  failures.push('the server colours nothing');
for (const failure of failures)
  console.log(failure);
console.log(`grammar against parser, ${words} words: ${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length > 0 ? 1 : 0;
