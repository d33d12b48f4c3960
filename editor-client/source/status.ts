// One item in the status bar that says in words whether the server is healthy, checking or stopped.
import * as vscode from 'vscode';

export class Status implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem('chordlang.state', vscode.StatusBarAlignment.Right, 100);
  private readonly watch: vscode.Disposable;
  private busy = 0;
  private alive = false;

  constructor() {
    this.item.name = 'ChordLang server';
    this.item.command = 'chordlang.state';
    this.watch = vscode.window.onDidChangeActiveTextEditor(() => this.appear());
    this.starting();
    this.appear();
  }

  starting(): void {
    this.alive = false;
    this.say('$(loading~spin)', 'starting', 'The server is starting.');
  }

  healthy(): void {
    this.alive = true;
    if (this.busy > 0)
      this.say('$(sync~spin)', 'checking', 'The arrangement is being checked.');
    else
      this.say('$(check)', 'healthy', 'The server answers; findings stand in the text and under Problems.');
  }

  stopped(why: string): void {
    this.alive = false;
    this.say('$(circle-slash)', 'stopped', `${why} Nothing is checked. Choose this to restart it or to read its log.`, new vscode.ThemeColor('statusBarItem.warningBackground'));
  }

  /** Says "checking" while a request is under way. */
  async during<T>(request: () => vscode.ProviderResult<T>): Promise<T | null | undefined> {
    this.busy++;
    if (this.alive)
      this.healthy();
    try {
      return await request();
    } finally {
      this.busy--;
      if (this.alive)
        this.healthy();
    }
  }

  dispose(): void {
    this.watch.dispose();
    this.item.dispose();
  }

  private say(sign: string, word: string, sentence: string, background?: vscode.ThemeColor): void {
    this.item.text = `${sign} ChordLang: ${word}`;
    this.item.tooltip = sentence;
    this.item.backgroundColor = background;
    this.item.accessibilityInformation = { label: `ChordLang server: ${word}. ${sentence}`, role: 'button' };
  }

  private appear(): void {
    if (vscode.window.activeTextEditor?.document.languageId === 'chordlang')
      this.item.show();
    else if (vscode.window.activeTextEditor !== undefined)
      this.item.hide();
  }
}
