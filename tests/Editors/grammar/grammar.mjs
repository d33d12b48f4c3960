// Colours a text by the extension's TextMate grammar, as VS Code does.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
export const root = join(here, '..', '..', '..');
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

/** For each line of a text, for each character, the scopes beside those of the file and the line. */
export function scopesOf(text) {
  let state = textmate.INITIAL;
  return text.split('\n').map(line => {
    const read = grammar.tokenizeLine(line, state);
    state = read.ruleStack;
    return read.tokens.flatMap(t => Array(t.endIndex - t.startIndex).fill(t.scopes.filter(s => s !== 'source.chordlang' && !s.startsWith('meta.'))));
  });
}
