// Read-only pages: what the program says about a finding or an arrangement, opened beside it as text that can be read aloud.
import * as vscode from 'vscode';
import type { Program } from './program';

const scheme = 'chordlang-page';

export class Pages implements vscode.TextDocumentContentProvider {
  private readonly texts = new Map<string, string>();
  private readonly changed = new vscode.EventEmitter<vscode.Uri>();
  readonly onDidChange = this.changed.event;

  constructor(private readonly program: Program) {}

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    const written = this.texts.get(uri.toString());
    if (written !== undefined)
      return written;
    // A page that is shown again after a reload is asked for anew.
    const code = /^\/explain\/([a-z-]+)\.md$/.exec(uri.path)?.[1];
    const answer = code === undefined ? undefined : await this.program.call(['explain', code]);
    return answer?.code === 0 ? answer.output : answer?.trouble ?? '';
  }

  /** Shows the page of a check, drawn as Markdown: package.json says which editor opens it, for links in findings too. */
  async explain(code: string): Promise<void> {
    await vscode.commands.executeCommand('vscode.open', vscode.Uri.from({ scheme, path: `/explain/${code}.md` }), { viewColumn: vscode.ViewColumn.Beside });
  }

  /** Shows a text beside the arrangement; the name is what its tab says. */
  async show(name: string, text: string): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: `/${name}` });
    this.texts.set(uri.toString(), text);
    this.changed.fire(uri);
    const document = await vscode.languages.setTextDocumentLanguage(await vscode.workspace.openTextDocument(uri), 'chordlang-page');
    await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preview: true });
  }
}

export function registerPages(context: vscode.ExtensionContext, program: Program): Pages {
  const pages = new Pages(program);
  context.subscriptions.push(vscode.workspace.registerTextDocumentContentProvider(scheme, pages));
  return pages;
}
