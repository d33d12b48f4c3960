-- What NEOVIM.md promises, asked of Neovim itself; ends with an error code where a promise is not kept.
local failures = 0
local function hold(what, kept)
  if not kept then
    failures = failures + 1
    io.stdout:write('not kept: ' .. what .. '\n')
  end
end

local ok, trouble = pcall(function()
  vim.cmd('edit lesson.chl')
  hold('the file type', vim.bo.filetype == 'chordlang')
  hold('colours', vim.b.current_syntax == 'chordlang')
  vim.fn.cursor(11, 33)
  hold('a grip is one word', vim.fn.expand('<cword>') == '3-x-3-4-4-x')
  hold('a section can be folded', vim.fn.foldlevel(11) == 1)
  hold('the finding', vim.wait(20000, function() return #vim.diagnostic.get(0) == 1 end, 20))
  local found = vim.diagnostic.get(0)[1] or {}
  hold('its name and place', found.code == 'name-fret-slip' and found.lnum == 10 and found.col == 31)
  vim.api.nvim_feedkeys('K', 'x', false)
  local float
  hold('K explains', vim.wait(10000, function()
    for _, w in ipairs(vim.api.nvim_list_wins()) do
      if vim.api.nvim_win_get_config(w).relative ~= '' then float = vim.api.nvim_win_get_buf(w) end
    end
    return float ~= nil
  end, 20))
  local text = float and table.concat(vim.api.nvim_buf_get_lines(float, 0, -1, false), '\n') or ''
  hold('in a sentence, with the fretboard in plain signs', text:find('sounds G2', 1, true) and text:find('|-----|', 1, true) and not text:find('data:image', 1, true))
  hold('omnifunc', vim.bo.omnifunc == 'v:lua.vim.lsp.omnifunc')
  vim.cmd('silent make!')
  local quick = vim.tbl_filter(function(q) return q.valid == 1 end, vim.fn.getqflist())
  hold(':make fills the quickfix list', #quick == 1 and quick[1].lnum == 11 and quick[1].text:find('Play fret 5', 1, true) and quick[1].type:upper() == 'W')
  local first = vim.lsp.get_active_clients()[1].id
  vim.cmd('ChordLangRestart')
  hold(':ChordLangRestart starts another server', vim.wait(20000, function()
    local all = vim.lsp.get_active_clients()
    return #all == 1 and all[1].id ~= first and #vim.diagnostic.get(0) == 1
  end, 20))
  vim.lsp.stop_client(vim.lsp.get_active_clients())
end)
hold(tostring(trouble), ok)
vim.cmd(failures == 0 and 'qall!' or 'cquit 1')
