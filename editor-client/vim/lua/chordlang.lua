-- Starts the ChordLang server for arrangements in Neovim 0.7 and later; from 0.11 on, vim.lsp.enable('chordlang') does it without this file.
local M = {}

-- The folder with chordlang.json or .git above a file, else the folder of the file.
local function root(path)
  local folder = vim.fn.fnamemodify(path, ':p:h')
  local at = folder
  while true do
    if vim.fn.filereadable(at .. '/chordlang.json') == 1 or vim.fn.isdirectory(at .. '/.git') == 1 or vim.fn.filereadable(at .. '/.git') == 1 then
      return at
    end
    local up = vim.fn.fnamemodify(at, ':h')
    if up == at then
      return folder
    end
    at = up
  end
end

local running = {}

--- Serves the current buffer; a second file of the same library shares the server.
function M.attach()
  local buffer, at = vim.api.nvim_get_current_buf(), root(vim.api.nvim_buf_get_name(0))
  if running[at] and not vim.lsp.get_client_by_id(running[at]) then
    running[at] = nil
  end
  running[at] = running[at] or vim.lsp.start_client({
    name = 'chordlang',
    cmd = M.cmd,
    root_dir = at,
    init_options = M.init_options,
    get_language_id = function() return 'chordlang' end,
    on_attach = M.on_attach,
  })
  if running[at] then
    vim.lsp.buf_attach_client(buffer, running[at])
  end
  return running[at]
end

--- Called once, from init.lua. Options: cmd, init_options, on_attach(client, buffer).
function M.setup(options)
  options = options or {}
  M.cmd = options.cmd or { 'chordlang', 'serve' }
  M.init_options, M.on_attach = options.init_options, options.on_attach
  vim.api.nvim_create_autocmd('FileType', { pattern = 'chordlang', callback = M.attach })
  vim.api.nvim_create_user_command('ChordLangRestart', function()
    for at, id in pairs(running) do
      vim.lsp.stop_client(id)
      running[at] = nil
    end
    vim.defer_fn(function() vim.cmd('edit') end, 200)
  end, { desc = 'Stop the ChordLang server and start it anew' })
end

return M
