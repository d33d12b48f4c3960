// The task that checks a whole folder; the problem matcher `$chordlang` reads what it prints.
import * as vscode from 'vscode';
import type { Program } from './program';

export function registerTasks(context: vscode.ExtensionContext, program: Program): void {
  context.subscriptions.push(vscode.tasks.registerTaskProvider('chordlang', {
    provideTasks: () => (vscode.workspace.workspaceFolders ?? []).map(folder => checkTask(program, folder)),
    resolveTask: task => {
      const check: unknown = task.definition['check'];
      return typeof check === 'string' && typeof task.scope === 'object' ? checkTask(program, task.scope, check, task.definition) : undefined;
    },
  }));
}

/** Checks a file or folder below a workspace folder. */
export function checkTask(program: Program, folder: vscode.WorkspaceFolder, what = '.', definition: vscode.TaskDefinition = { type: 'chordlang', check: what }): vscode.Task {
  const run = new vscode.ProcessExecution(program.path, ['check', what], { cwd: folder.uri.fsPath });
  const task = new vscode.Task(definition, folder, what === '.' ? 'check the folder' : `check ${what}`, 'chordlang', run, '$chordlang');
  task.group = vscode.TaskGroup.Test;
  task.detail = 'Says what is wrong in arrangements, where, and what to do';
  return task;
}
