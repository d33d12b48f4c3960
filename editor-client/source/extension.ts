// Where VS Code calls in: puts server, status, commands and tasks together, and takes them apart at the end.
import * as vscode from 'vscode';
import { registerCommands } from './commands';
import { registerFolding } from './folding';
import { registerPages } from './pages';
import { Program } from './program';
import { Server } from './server';
import { Status } from './status';
import { registerTasks } from './tasks';

let server: Server | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const log = vscode.window.createOutputChannel('ChordLang', { log: true });
  const program = new Program(context.extensionUri.fsPath);
  const status = new Status();
  const pages = registerPages(context, program);
  server = new Server(program, status, log);
  context.subscriptions.push(log, status);
  registerCommands(context, { program, server, pages, log });
  registerTasks(context, program);
  registerFolding(context, server);
  context.subscriptions.push(vscode.workspace.onDidChangeConfiguration(async change => {
    if (['chordlang.server', 'chordlang.hover'].some(s => change.affectsConfiguration(s)))
      await server?.restart();
  }));
  // A folder that becomes trusted may name its own program from now on.
  context.subscriptions.push(vscode.workspace.onDidGrantWorkspaceTrust(() => server?.restart()));
  await server.start();
}

export async function deactivate(): Promise<void> {
  await server?.stop();
}
