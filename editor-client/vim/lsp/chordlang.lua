-- The server's entry for Neovim 0.11 and later: vim.lsp.enable('chordlang') reads it.
return {
  cmd = { 'chordlang', 'serve' },
  filetypes = { 'chordlang' },
  root_markers = { 'chordlang.json', '.git' },
}
