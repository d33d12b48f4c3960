// The language server's life: started once, restarted on demand, its state told to whoever asks.
import * as vscode from 'vscode';
import { ExecuteCommandRequest, LanguageClient, RevealOutputChannelOn, State, type LanguageClientOptions } from 'vscode-languageclient/node';
import type { Program } from './program';
import type { Status } from './status';

// The server's commands have the names of ours, for editors that have none of their own; here ours ask first what the server's want to be told.
class Client extends LanguageClient {
  override registerFeature(feature: Parameters<LanguageClient['registerFeature']>[0]): void {
    if (!('registrationType' in feature) || feature.registrationType.method !== ExecuteCommandRequest.method)
      super.registerFeature(feature);
  }
}

export class Server {
  private client: LanguageClient | undefined;
  // One start or stop after the other: two restarts in a row must not leave two servers.
  private turn: Promise<void> = Promise.resolve();

  constructor(private readonly program: Program, private readonly status: Status, private readonly log: vscode.LogOutputChannel) {}

  /** True while the server answers. */
  get running(): boolean {
    return this.client?.state === State.Running;
  }

  /** True where the server says how to fold. */
  get folds(): boolean {
    return this.running && Boolean(this.client?.initializeResult?.capabilities.foldingRangeProvider);
  }

  /** What the server called itself, or undefined. */
  get version(): string | undefined {
    return this.client?.initializeResult?.serverInfo?.version;
  }

  /** Asks the server something of our own. */
  async ask<T>(method: string, what: object): Promise<T> {
    if (this.client === undefined || !this.running)
      throw new Error('the server does not answer');
    return this.client.sendRequest<T>(method, what);
  }

  start(): Promise<void> {
    return this.inTurn(() => this.begin());
  }

  stop(): Promise<void> {
    return this.inTurn(() => this.end());
  }

  restart(): Promise<void> {
    return this.inTurn(async () => {
      await this.end();
      await this.begin();
    });
  }

  private inTurn(step: () => Promise<void>): Promise<void> {
    return this.turn = this.turn.then(step, step);
  }

  private async begin(): Promise<void> {
    const began = Date.now();
    const command = this.program.path;
    this.status.starting();
    const client = new Client('chordlang', 'ChordLang', { command, args: ['serve'] }, this.options());
    client.onDidChangeState(change => {
      if (client !== this.client)
        return;
      if (change.newState === State.Stopped)
        this.status.stopped('The server has stopped.');
      else if (change.newState === State.Running)
        this.status.healthy();
    });
    this.client = client;
    try {
      await client.start();
      this.log.info(`${command} ${this.version ?? ''} answers after ${Date.now() - began} ms`);
      await this.program.announce();
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      this.log.error(`${command} could not be started: ${reason}`);
      this.status.stopped(`${command} could not be started.`);
      void this.explainFailure(command);
    }
  }

  private async end(): Promise<void> {
    const client = this.client;
    this.client = undefined;
    this.status.stopped('The server was stopped.');
    if (client !== undefined && client.state !== State.Stopped)
      await client.stop().catch(error => this.log.warn(String(error)));
    await client?.dispose().catch(() => undefined);
  }

  private options(): LanguageClientOptions {
    const settings = vscode.workspace.getConfiguration('chordlang');
    return {
      documentSelector: [{ language: 'chordlang' }],
      outputChannel: this.log,
      traceOutputChannel: this.log,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
      initializationOptions: {
        pictures: settings.get('hover.pictures', true),
        // The name of a finding is a link to its page, which is shown here and not in a browser.
        pages: 'chordlang-page:/explain/{code}.md',
      },
      markdown: { isTrusted: false, supportHtml: false },
      middleware: {
        provideDiagnostics: (document, previous, token, next) => this.status.during(() => next(document, previous, token)),
        provideDocumentFormattingEdits: (document, options, token, next) => this.status.during(() => next(document, options, token)),
      },
    };
  }

  // Colours, snippets and folds go on working; what is missing is said once, with the two ways out.
  private async explainFailure(command: string): Promise<void> {
    const set = 'Set Its Path', log = 'Show the Log';
    const choice = await vscode.window.showErrorMessage(
      `ChordLang: the program ${command} could not be started, so nothing is checked. Put chordlang on the PATH, or say where it is.`, set, log);
    if (choice === set)
      await vscode.commands.executeCommand('workbench.action.openSettings', 'chordlang.server.path');
    else if (choice === log)
      this.log.show();
  }
}
