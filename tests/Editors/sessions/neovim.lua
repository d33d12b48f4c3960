-- A session with the server in Neovim: find, explain, mend, format, complete, rename; ends with an error code where one of them fails.
local failures = 0
local function hold(what, kept)
  if not kept then
    failures = failures + 1
    io.stdout:write('neovim: not as it should be: ' .. what .. '\n')
  end
end
local function lines() return vim.api.nvim_buf_get_lines(0, 0, -1, false) end
local function ask(method, more)
  local params = vim.tbl_extend('force', vim.lsp.util.make_position_params(), more or {})
  local answers = vim.lsp.buf_request_sync(0, method, params, 20000) or {}
  local _, first = next(answers)
  return first and first.result
end
local function proposes(completed, label)
  for _, item in ipairs(completed.items or completed) do
    if item.label:find(label, 1, true) == 1 then return true end
  end
  return false
end

local ok, trouble = pcall(function()
  vim.cmd('edit lesson.chl')
  local id = vim.lsp.start_client({ name = 'chordlang', cmd = { os.getenv('CHORDLANG'), 'serve' }, root_dir = vim.fn.getcwd(), get_language_id = function() return 'chordlang' end })
  vim.lsp.buf_attach_client(0, id)
  -- The last slot of the second grip is one fret off; behind a ♭, so that bytes and characters differ.
  hold('one finding', vim.wait(30000, function() return #vim.diagnostic.get(0) == 1 end, 20))
  local found = vim.diagnostic.get(0)[1] or {}
  hold('its name and its line', found.code == 'name-fret-slip' and found.lnum == 9)
  vim.api.nvim_win_set_cursor(0, { found.lnum + 1, found.col })
  vim.lsp.buf.hover()
  local float
  hold('a hover', vim.wait(20000, function()
    for _, w in ipairs(vim.api.nvim_list_wins()) do
      if vim.api.nvim_win_get_config(w).relative ~= '' then float = w end
    end
    return float ~= nil
  end, 20))
  if float then
    local text = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(float), 0, -1, false), '\n')
    hold('that says what sounds', text:find('sounds', 1, true) ~= nil)
    vim.api.nvim_win_close(float, true)
  end
  local offered
  vim.ui.select = function(items, _, choose)
    offered = items
    choose(items[1], 1)
  end
  vim.lsp.buf.code_action()
  hold('actions', vim.wait(20000, function() return offered ~= nil end, 20))
  hold('the fix mends the grip', vim.wait(20000, function() return lines()[10]:find('x-1-3-2-3-x', 1, true) ~= nil end, 20))
  hold('and the finding goes', vim.wait(20000, function() return #vim.diagnostic.get(0) == 0 end, 20))
  vim.api.nvim_buf_set_lines(0, 11, 12, false, { '  1 low-drop+2  3 3x443x' })
  vim.lsp.buf.formatting_sync(nil, 20000)
  hold('formatting', lines()[12]:find('^    1 low%-drop%+2   3 3%-x%-4%-4%-3%-x$') ~= nil)
  vim.api.nvim_win_set_cursor(0, { 11, 4 })
  local completed = ask('textDocument/completion') or {}
  hold('completion of a chord', proposes(completed, 'Gm7'))
  vim.api.nvim_buf_set_lines(0, 12, 12, false, { '    4  ' })
  vim.api.nvim_win_set_cursor(0, { 13, 6 })
  -- One blank more, for in this mode the cursor stands on a character.
  hold('completion of a shape by its name', proposes(ask('textDocument/completion') or {}, 'low-drop'))
  vim.api.nvim_buf_set_lines(0, 12, 13, false, {})
  vim.api.nvim_win_set_cursor(0, { 5, 7 })
  vim.lsp.buf.rename('deep-drop')
  hold('rename of a shape', vim.wait(20000, function()
    return lines()[5]:find('shape deep-drop', 1, true) ~= nil and lines()[10]:find('deep-drop', 1, true) ~= nil and lines()[12]:find('deep-drop+2', 1, true) ~= nil
  end, 20))
  hold('and no finding comes of it', vim.wait(20000, function() return #vim.diagnostic.get(0) == 0 end, 20))
  vim.lsp.stop_client(id)
end)
hold(tostring(trouble), ok)
vim.cmd(failures == 0 and 'qall!' or 'cquit 1')
