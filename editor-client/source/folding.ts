// Folds sections while no server does: each from its line to the last line of music before the next.
import * as vscode from 'vscode';
import type { Server } from './server';

export function registerFolding(context: vscode.ExtensionContext, server: Server): void {
  context.subscriptions.push(vscode.languages.registerFoldingRangeProvider({ language: 'chordlang' }, {
    provideFoldingRanges: document => server.folds ? [] : sections(document),
  }));
}

function sections(document: vscode.TextDocument): vscode.FoldingRange[] {
  const folds: vscode.FoldingRange[] = [];
  let start: number | undefined, last = 0;
  const close = (): void => {
    if (start !== undefined && last > start)
      folds.push(new vscode.FoldingRange(start, last));
  };
  for (let line = 0; line < document.lineCount; line++) {
    const text = document.lineAt(line).text;
    if (/^\s*section\s/.test(text)) {
      close();
      start = line;
    }
    if (text.trim() !== '')
      last = line;
  }
  close();
  return folds;
}
