// What the palette offers: each command asks for what it needs, calls the program, and shows the answer or says what went wrong.
import { randomBytes } from 'node:crypto';
import * as path from 'node:path';
import * as vscode from 'vscode';
import type { Pages } from './pages';
import type { Answer, Program } from './program';
import type { Server } from './server';
import { showSheet } from './sheet';
import { checkTask } from './tasks';

interface Parts {
  readonly program: Program;
  readonly server: Server;
  readonly pages: Pages;
  readonly log: vscode.LogOutputChannel;
}

export function registerCommands(context: vscode.ExtensionContext, parts: Parts): void {
  const commands: Record<string, (...given: unknown[]) => unknown> = {
    new: () => newArrangement(parts),
    sample: () => openSample(context),
    explain: code => explain(parts, typeof code === 'string' ? code : undefined),
    describe: () => describe(parts),
    transpose: () => transpose(parts),
    export: () => exportPiece(parts),
    import: () => importFile(parts),
    practice: () => practice(parts),
    hear: () => hear(context, parts),
    sheet: () => sheet(context, parts),
    check: () => checkFolder(parts),
    restart: () => parts.server.restart(),
    log: () => parts.log.show(),
    version: () => version(parts),
    state: () => state(parts),
  };
  for (const [name, run] of Object.entries(commands))
    context.subscriptions.push(vscode.commands.registerCommand(`chordlang.${name}`, run));
}

function current(): vscode.TextDocument | undefined {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId === 'chordlang')
    return document;
  void vscode.window.showInformationMessage('ChordLang: open an arrangement (.chl) first.');
  return undefined;
}

// The text as it stands in the editor, saved or not; its path lets `use` find the files beside it.
function call({ program }: Parts, document: vscode.TextDocument, words: readonly string[]): Promise<Answer> {
  const saved = document.uri.scheme === 'file';
  return program.call([...words, '-', ...(saved ? ['--stdin-path', document.uri.fsPath] : [])], document.getText(),
    saved ? path.dirname(document.uri.fsPath) : undefined);
}

function failed(parts: Parts, what: string, answer: Answer): boolean {
  if (answer.code === 0 || answer.code === 1 && answer.output !== '')
    return false;
  const reason = answer.trouble.trim() || `the program ended with code ${answer.code}`;
  parts.log.error(`${what}: ${reason}`);
  void vscode.window.showErrorMessage(`ChordLang: ${what} did not work: ${reason}`);
  return true;
}

async function newArrangement(parts: Parts): Promise<void> {
  const title = await vscode.window.showInputBox({ title: 'New Arrangement', prompt: 'Its title', value: 'First Lesson' });
  if (title === undefined)
    return;
  const key = await vscode.window.showInputBox({ title: 'New Arrangement', prompt: 'Its key, such as G major or D dorian', value: 'C major' });
  if (key === undefined)
    return;
  const answer = await parts.program.call(['new', '--key', key.trim() || 'C major', '--', title.trim() || 'First Lesson']);
  if (!failed(parts, 'a new arrangement', answer))
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'chordlang', content: answer.output }));
}

async function openSample(context: vscode.ExtensionContext): Promise<void> {
  const text = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(context.extensionUri, 'samples', 'one-finger-off.chl'));
  const document = await vscode.workspace.openTextDocument({ language: 'chordlang', content: new TextDecoder().decode(text) });
  await vscode.window.showTextDocument(document);
}

async function explain(parts: Parts, code: string | undefined): Promise<void> {
  const wanted = code ?? findingAtCursor();
  if (wanted === undefined)
    void vscode.window.showInformationMessage('ChordLang: there is no finding at the cursor. F8 goes to the next one.');
  else if (/^[a-z]+(-[a-z]+)*$/.test(wanted))
    await parts.pages.explain(wanted);
}

function findingAtCursor(): string | undefined {
  const editor = vscode.window.activeTextEditor;
  if (editor === undefined)
    return undefined;
  const ours = vscode.languages.getDiagnostics(editor.document.uri).filter(d => d.source === 'chordlang');
  const at = editor.selection.active;
  // The smallest that holds the cursor, else one on its line.
  const found = ours.filter(d => d.range.contains(at)).sort((a, b) => a.range.contains(b.range) ? 1 : -1)[0] ?? ours.find(d => d.range.start.line === at.line);
  const code = found?.code;
  return typeof code === 'object' ? String(code.value) : code === undefined ? undefined : String(code);
}

async function describe(parts: Parts): Promise<void> {
  const document = current();
  if (document === undefined)
    return;
  const whole = { label: 'Complete', description: 'pitches, strings, frets and rhythm', words: ['describe'] };
  const brief = { label: 'Brief', description: 'one sentence a bar', words: ['describe', '--brief'] };
  const choice = await vscode.window.showQuickPick([whole, brief], { title: 'Describe in Sentences', placeHolder: 'How much?' });
  if (choice === undefined)
    return;
  const answer = await call(parts, document, choice.words);
  if (!failed(parts, 'the description', answer))
    await parts.pages.show(`${name(document)}, described`, answer.output);
}

async function transpose(parts: Parts): Promise<void> {
  const document = current();
  if (document === undefined)
    return;
  const where = await vscode.window.showInputBox({
    title: 'Transpose', prompt: 'A key, such as F major, or semitones up or down, such as +2 or -3', value: '+2',
    validateInput: text => text.trim() === '' ? 'A key, or a number of semitones with its sign.' : undefined,
  });
  if (where === undefined)
    return;
  const answer = await call(parts, document, /^[+-]?\d+$/.test(where.trim()) ? ['transpose', `--by=${where.trim()}`] : ['transpose', `--to=${where.trim()}`]);
  if (failed(parts, 'transposing', answer))
    return;
  // A new editor, not an edit: what was written stays as it was, and both can be compared.
  await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'chordlang', content: answer.output }));
  if (answer.trouble.trim() !== '')
    void vscode.window.showWarningMessage(`ChordLang: ${answer.trouble.trim()}`);
}

const endings: Readonly<Record<string, string>> = { musicxml: 'musicxml', midi: 'mid', tab: 'txt', sheet: 'html', svg: 'svg', pdf: 'pdf', wav: 'wav' };

async function exportPiece(parts: Parts): Promise<void> {
  const document = current();
  if (document === undefined)
    return;
  const format = await vscode.window.showQuickPick(await parts.program.exports(), { title: 'Export', placeHolder: 'In which format?' });
  if (format === undefined)
    return;
  const ending = endings[format] ?? format;
  const beside = document.uri.scheme === 'file' ? document.uri.fsPath.replace(/\.chl$/, '') : path.join(vscode.workspace.workspaceFolders?.[0]?.uri.fsPath ?? '', 'arrangement');
  const target = await vscode.window.showSaveDialog({ title: 'Export', defaultUri: vscode.Uri.file(`${beside}.${ending}`), filters: { [format]: [ending] } });
  if (target === undefined)
    return;
  const answer = await call(parts, document, ['export', '--to', format, '--out', target.fsPath]);
  if (answer.code !== 0 && answer.code !== 1) {
    failed(parts, 'the export', answer);
    return;
  }
  const open = 'Open It';
  if (await vscode.window.showInformationMessage(`ChordLang: written to ${target.fsPath}`, open) === open)
    await vscode.commands.executeCommand('vscode.open', target);
}

async function importFile(parts: Parts): Promise<void> {
  const chosen = await vscode.window.showOpenDialog({ title: 'Import', filters: { 'Scores, MIDI files, typed tablature': ['musicxml', 'xml', 'mxl', 'mid', 'midi', 'txt'] } });
  if (chosen?.[0] === undefined)
    return;
  const answer = await parts.program.call(['import', chosen[0].fsPath]);
  if (failed(parts, 'the import', answer))
    return;
  await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: 'chordlang', content: answer.output }));
  const lost = answer.trouble.trim();
  if (lost === '')
    return;
  const read = 'Read Them';
  if (await vscode.window.showWarningMessage('ChordLang: some of it was guessed, or has no sign in this notation.', read) === read)
    await parts.pages.show(`${path.basename(chosen[0].fsPath)}, what could not be carried`, lost);
}

async function practice(parts: Parts): Promise<void> {
  const document = current();
  const answer = document && await call(parts, document, ['practice']);
  if (document && answer && !failed(parts, 'the practice list', answer))
    await parts.pages.show(`${name(document)}, to practise`, answer.output);
}

async function hear(context: vscode.ExtensionContext, parts: Parts): Promise<void> {
  const document = current();
  if (document === undefined)
    return;
  await vscode.workspace.fs.createDirectory(context.globalStorageUri);
  // A name of its own each time: the player keeps what it has opened.
  const target = vscode.Uri.joinPath(context.globalStorageUri, `${randomBytes(4).toString('hex')}.wav`);
  const old = (await vscode.workspace.fs.readDirectory(context.globalStorageUri)).filter(([file]) => file.endsWith('.wav'));
  for (const [file] of old)
    await vscode.workspace.fs.delete(vscode.Uri.joinPath(context.globalStorageUri, file));
  const answer = await call(parts, document, ['export', '--to', 'wav', '--out', target.fsPath]);
  if (answer.code === 0 || answer.code === 1)
    await vscode.commands.executeCommand('vscode.open', target, { viewColumn: vscode.ViewColumn.Beside });
  else
    failed(parts, 'the sound', answer);
}

function sheet(context: vscode.ExtensionContext, parts: Parts): void {
  const document = current();
  if (document !== undefined)
    showSheet(context, parts.server, document);
}

async function checkFolder(parts: Parts): Promise<void> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  const folder = folders.length > 1 ? await vscode.window.showWorkspaceFolderPick({ placeHolder: 'Which folder is checked?' }) : folders[0];
  if (folder !== undefined)
    await vscode.tasks.executeTask(checkTask(parts.program, folder));
  else if (folders.length === 0)
    void vscode.window.showInformationMessage('ChordLang: open a folder first.');
}

async function version(parts: Parts): Promise<void> {
  const answer = await parts.program.call(['--version']);
  if (!failed(parts, 'the version', answer))
    void vscode.window.showInformationMessage(`${answer.output.trim()}, run as ${parts.program.path}`);
}

async function state(parts: Parts): Promise<void> {
  const entries = [
    { label: '$(debug-restart) Restart the server', command: 'chordlang.restart' },
    { label: '$(output) Show the log', command: 'chordlang.log' },
    { label: '$(info) Show the version', command: 'chordlang.version' },
    { label: '$(settings-gear) Settings', command: 'workbench.action.openSettings', argument: 'chordlang' },
  ];
  const choice = await vscode.window.showQuickPick(entries, { title: `ChordLang server: ${parts.server.running ? 'it answers' : 'stopped'}` });
  if (choice !== undefined)
    await vscode.commands.executeCommand(choice.command, ...(choice.argument === undefined ? [] : [choice.argument]));
}

function name(document: vscode.TextDocument): string {
  return path.basename(document.uri.path, '.chl');
}
