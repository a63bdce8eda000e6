-- Waits for the finding, writes it down, takes the first correction on offer and saves the note.
local function run()
  assert(vim.wait(30000, function()
    return #vim.diagnostic.get(0) > 0
  end, 20), 'nothing was found')
  local found = {}
  for _, finding in ipairs(vim.diagnostic.get(0)) do
    table.insert(found, (finding.lnum + 1) .. ' ' .. finding.message)
  end
  vim.fn.writefile(found, 'found')
  local finding = vim.diagnostic.get(0)[1]
  vim.api.nvim_win_set_cursor(0, { finding.lnum + 1, finding.col })
  vim.ui.select = function(items, _, choose)
    choose(items[1], 1)
  end
  local before = vim.b.changedtick
  vim.lsp.buf.code_action()
  assert(vim.wait(30000, function()
    return vim.b.changedtick ~= before
  end, 20), 'nothing was mended')
  assert(vim.wait(30000, function()
    return #vim.diagnostic.get(0) == 0
  end, 20), 'the finding stays')
  vim.cmd('write')
end

vim.api.nvim_create_autocmd('VimEnter', {
  callback = function()
    local ok, fault = pcall(run)
    if not ok then
      io.stderr:write(tostring(fault) .. '\n')
      vim.cmd('cquit 1')
    end
    vim.cmd('quitall!')
  end,
})
