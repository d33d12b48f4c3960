// The sheet beside the editor: asks the server for what changed, and for what it sounds, and hands it to a page that draws and plays it.
import { randomBytes } from 'node:crypto';
import * as vscode from 'vscode';
import { page, type Choices, type Found, type FromPage, type Heard, type Sheet, type ToPage } from '../live/page';
import type { Server } from './server';

const levels = ['error', 'warning', 'note', 'note'] as const;
// Milliseconds without an edit after which the bars worth practising are asked for: to find them, the whole piece is looked at.
const calm = 1500;
const open = new Map<string, SheetView>();

/** Shows the sheet of an arrangement; one that is shown already is brought to the front. */
export function showSheet(context: vscode.ExtensionContext, server: Server, document: vscode.TextDocument): void {
  const key = document.uri.toString();
  const shown = open.get(key);
  if (shown)
    shown.reveal();
  else
    open.set(key, new SheetView(context, server, document, () => open.delete(key)));
}

class SheetView {
  private readonly panel: vscode.WebviewPanel;
  private known: string[] = [];
  private asking = false;
  private again = false;
  private choices: Choices = { large: false, numerals: false, skeleton: false };
  private width = 0;
  private later: NodeJS.Timeout | undefined;

  constructor(context: vscode.ExtensionContext, private readonly server: Server, private readonly document: vscode.TextDocument, closed: () => void) {
    const name = document.uri.path.split('/').at(-1)!.replace(/\.chl$/, '');
    this.panel = vscode.window.createWebviewPanel('chordlang.sheet', `${name}: sheet`, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true }, {
      enableScripts: true, localResourceRoots: [context.extensionUri],
    });
    const { webview } = this.panel;
    const listeners = [
      webview.onDidReceiveMessage((message: FromPage) => this.told(message)),
      vscode.workspace.onDidChangeTextDocument(change => change.document === document && void this.refresh()),
      vscode.workspace.onDidCloseTextDocument(gone => gone === document && this.panel.dispose()),
      vscode.window.onDidChangeTextEditorSelection(change => change.textEditor.document === document && this.caret(change.textEditor)),
      vscode.languages.onDidChangeDiagnostics(change => change.uris.some(u => u.toString() === document.uri.toString()) && this.findings()),
    ];
    this.panel.onDidDispose(() => {
      for (const listener of listeners)
        listener.dispose();
      clearTimeout(this.later);
      closed();
    });
    webview.html = page(randomBytes(16).toString('base64url'), '', `src="${webview.asWebviewUri(vscode.Uri.joinPath(context.extensionUri, 'sheet.js'))}"`);
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  private told(message: FromPage): void {
    switch (message.kind) {
      case 'ready':
        // A page that was hidden begins anew.
        this.known = [];
        [this.choices, this.width] = [message.choices, message.width];
        void this.refresh();
        break;
      case 'chosen':
        [this.choices, this.width] = [message.choices, message.width];
        void this.refresh();
        break;
      case 'hear':
        void this.hear();
        break;
      case 'go':
        void this.go(message.from, message.to);
        break;
      case 'explain':
        void this.explain(message.offset);
    }
  }

  // One question at a time: what is typed meanwhile is asked for when the answer is there.
  private async refresh(): Promise<void> {
    if (this.asking) {
      this.again = true;
      return;
    }
    this.asking = true;
    do {
      this.again = false;
      try {
        const sheet = await this.server.ask<Sheet | null>('chordlang/sheet', { textDocument: { uri: this.document.uri.toString() }, known: this.known, ...this.choices, width: this.width });
        if (sheet) {
          this.known = [sheet.look.id, ...sheet.parts.map(p => p.id)];
          this.send({ kind: 'sheet', sheet });
          this.findings();
          const editor = vscode.window.visibleTextEditors.find(e => e.document === this.document);
          if (editor)
            this.caret(editor);
        }
      } catch (error) {
        this.send({ kind: 'trouble', text: `The sheet cannot be drawn: ${error instanceof Error ? error.message : String(error)}` });
      }
    } while (this.again);
    this.asking = false;
    clearTimeout(this.later);
    this.later = setTimeout(() => void this.hear(), calm);
  }

  private async hear(): Promise<void> {
    clearTimeout(this.later);
    try {
      this.send({ kind: 'heard', heard: await this.server.ask<Heard | null>('chordlang/heard', { textDocument: { uri: this.document.uri.toString() } }) });
    } catch {
      this.send({ kind: 'heard', heard: null });
    }
  }

  private caret(editor: vscode.TextEditor): void {
    this.send({ kind: 'caret', offset: this.document.offsetAt(editor.selection.active) });
  }

  private findings(): void {
    const found: Found[] = vscode.languages.getDiagnostics(this.document.uri).filter(d => d.source === 'chordlang').map(d => ({
      from: this.document.offsetAt(d.range.start), to: this.document.offsetAt(d.range.end), level: levels[d.severity], message: d.message,
    }));
    this.send({ kind: 'findings', found });
  }

  private async go(from: number, to: number): Promise<void> {
    const shown = vscode.window.visibleTextEditors.find(e => e.document === this.document);
    await vscode.window.showTextDocument(this.document, {
      viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One, selection: new vscode.Range(this.document.positionAt(from), this.document.positionAt(to)),
    });
  }

  // What the editor's own hover says there, in plain words.
  private async explain(offset: number): Promise<void> {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', this.document.uri, this.document.positionAt(offset));
    const text = hovers.flatMap(h => h.contents).map(c => typeof c === 'string' ? c : c.value).join('\n\n')
      .replace(/```[^]*?```/g, '').replace(/!\[[^\]]*\]\([^)]*\)/g, '').replace(/\[([^\]]*)\]\([^)]*\)/g, '$1').replace(/[*_`\\]/g, '').replace(/\n{3,}/g, '\n\n').trim();
    this.send({ kind: 'explained', offset, text });
  }

  private send(message: ToPage): void {
    void this.panel.webview.postMessage(message);
  }
}
