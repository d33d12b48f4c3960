// The chordlang program: which one is run, what it can do, and single calls of it. Nothing is ever downloaded.
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import * as path from 'node:path';
import * as vscode from 'vscode';

/** What a call answered. Code 0 is clean, 1 has findings, 2 is trouble; -1 means that the program could not be started. */
export interface Answer {
  readonly code: number;
  readonly output: string;
  readonly trouble: string;
}

export class Program {
  private commands: Promise<ReadonlySet<string>> | undefined;
  private formats: Promise<readonly string[]> | undefined;

  constructor(private readonly extension: string) {}

  /** The program that is set, else the one that came with the extension, else the one on the PATH. */
  get path(): string {
    const set = vscode.workspace.getConfiguration('chordlang').get<string>('server.path', '').trim();
    if (set !== '')
      return set;
    const name = process.platform === 'win32' ? 'chordlang.exe' : 'chordlang';
    const bundled = path.join(this.extension, 'server', name);
    return existsSync(bundled) ? bundled : name;
  }

  /** Forgets what was learnt of the program, as another may be run from now on. */
  renew(): void {
    this.commands = this.formats = undefined;
  }

  /** One call. `input` is what it reads from standard input. */
  call(args: readonly string[], input?: string, folder?: string): Promise<Answer> {
    return new Promise(done => {
      const options = { maxBuffer: 64 << 20, windowsHide: true, env: { ...process.env, NO_COLOR: '1' }, ...(folder === undefined ? {} : { cwd: folder }) };
      const child = execFile(this.path, [...args], options, (error, output, trouble) => {
        const code = error === null ? 0 : typeof error.code === 'number' ? error.code : -1;
        done({ code, output, trouble: code === -1 ? error?.message ?? '' : trouble });
      });
      // A program that has ended already reads nothing more: its answer says why.
      child.stdin?.on('error', () => undefined);
      child.stdin?.end(input ?? '');
    });
  }

  /** The words that the program lists in its help. */
  can(command: string): Promise<boolean> {
    this.commands ??= this.call(['--help']).then(a => new Set([...a.output.matchAll(/^ {2}([a-z]+) {2,}\S/gm)].map(m => m[1]!)));
    return this.commands.then(c => c.has(command));
  }

  /** The formats that export lists in its help. */
  exports(): Promise<readonly string[]> {
    this.formats ??= this.call(['export', '--help']).then(a => /--to ([a-z|]+)/.exec(a.output)?.[1]?.split('|') ?? []);
    return this.formats;
  }

  /** Tells the menus which commands are answered; the others are not offered. */
  async announce(): Promise<void> {
    this.renew();
    for (const word of ['describe', 'transpose', 'export', 'import', 'practice'])
      await vscode.commands.executeCommand('setContext', `chordlang.can.${word}`, await this.can(word));
    await vscode.commands.executeCommand('setContext', 'chordlang.can.hear', (await this.exports()).includes('wav'));
  }
}
