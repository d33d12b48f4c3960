// The page of the live sheet, and what passes between it and the extension: nothing of VS Code, so that a plain browser can open it in a test.

/** A line of the sheet as the server sends it; without a drawing where its id is known. */
export interface Line { from: number; to: number; name: string; svg?: string; spoken?: string[]; margin?: string }

/** A part of the sheet: a line, or words around lines. */
export interface Part { id: string; html?: string; line?: Line }

/** What the server calls a sheet. */
export interface Sheet { version: number; look: { id: string; style?: string; signs?: string }; parts: Part[] }

/** What the server says that it sounds; the music is JSON. */
export interface Heard { version: number; music: string; practise: { bar: number; words: string }[] }

/** How the sheet is drawn. */
export interface Choices { large: boolean; numerals: boolean; skeleton: boolean }

/** A finding, by offsets of the text. */
export interface Found { from: number; to: number; level: 'error' | 'warning' | 'note'; message: string }

/** To the page. */
export type ToPage =
  | { kind: 'sheet'; sheet: Sheet }
  | { kind: 'heard'; heard: Heard | null }
  | { kind: 'caret'; offset: number }
  | { kind: 'findings'; found: Found[] }
  | { kind: 'explained'; offset: number; text: string }
  | { kind: 'trouble'; text: string };

/** From the page. */
export type FromPage =
  | { kind: 'ready' | 'chosen'; choices: Choices; width: number }
  | { kind: 'hear' }
  | { kind: 'go'; from: number; to: number }
  | { kind: 'explain'; offset: number };

// The colours are those of the editor's theme, whatever the sheet itself would choose.
const look = `body{margin:0;padding:0 .4rem 2rem;--paper:var(--vscode-editor-background,#fff);--ink:var(--vscode-editor-foreground,#1b2430);--soft:var(--vscode-descriptionForeground,#5d6670);
--chord:var(--vscode-textLink-foreground,#0b5563);--warm:var(--vscode-editorWarning-foreground,#8b4a0c);--string:color-mix(in srgb,var(--ink) 50%,var(--paper))}
main{padding:0;max-width:76rem}header{margin:1rem 0 .6rem}h1{font-size:1.4rem}.system{border-left:.2rem solid transparent;padding:.3rem .5rem;margin:.2rem 0;contain:layout style}.system.here{border-left-color:var(--chord)}
.sys [data-from]{cursor:pointer}.sys .caret,.sys .caret text,.sys .caret use,.sys .picked,.sys .picked text,.sys .picked use{fill:var(--chord);font-weight:700;text-decoration:underline}
.sys .found,.sys .found text,.sys .found use{fill:var(--vscode-editorError-foreground,#a1260d)}
.go,.choose button{font:inherit;font-size:.86rem;color:var(--chord);background:none;border:0;padding:.2rem 0;min-height:1.6rem;text-align:left;cursor:pointer;text-decoration:underline dotted 1px;text-underline-offset:.2em}
.go:hover,.choose button:hover{text-decoration-style:solid}.choose{display:flex;flex-wrap:wrap;gap:.1rem 1.1rem;margin:0 0 .6rem}
.choose button[aria-pressed=true]{font-weight:700;color:var(--warm);text-decoration-style:solid}.choose button[aria-pressed=true]::before{content:'\\2713\\00a0'}
.go:focus-visible,.choose button:focus-visible,.notes:focus-visible{outline:2px solid var(--warm);outline-offset:2px}
.findings{margin:.2rem 0;padding:0;list-style:none}.findings .go{color:var(--ink)}
#explained{position:fixed;max-width:24rem;padding:.5rem .7rem;background:var(--paper);color:var(--ink);border:1px solid var(--string);white-space:pre-line;font-size:.86rem;z-index:2}
#explained[hidden]{display:none}`;

/** The page: one style, one script, both known by a nonce; nothing else is allowed, and nothing is loaded but the script. */
export function page(nonce: string, script: string, source: string): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'">
<title>Sheet</title>
<style nonce="${nonce}" id="look">${look}</style>
</head>
<body>
<svg class="defs" id="signs" aria-hidden="true" focusable="false"></svg>
<main>
<p class="choose" role="group" aria-label="How it is drawn">
<button type="button" data-choice="large" aria-pressed="false">Large print</button>
<button type="button" data-choice="numerals" aria-pressed="false">Numerals</button>
<button type="button" data-choice="skeleton" aria-pressed="false">What remains without decoration</button>
</p>
<p id="trouble" role="status"></p>
<p id="said" class="spoken" role="status"></p>
<div id="parts"></div>
<div id="explained" role="tooltip" hidden></div>
</main>
<script nonce="${nonce}" ${source}>${script}</script>
</body>
</html>
`;
}
