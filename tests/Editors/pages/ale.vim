" What the Vim page promises, asked of Vim with ALE; what is not kept is written into the file `result`, and Vim ends with an error code.
set rtp+=$VIMRUNTIME
let g:ale_use_global_executables = 1
let g:ale_echo_cursor = 0
packadd! ale
runtime plugin/ale.vim
runtime ftdetect/chordlang.vim
let s:failures = []
function! s:Hold(what, kept) abort
  if !a:kept
    call add(s:failures, 'not kept: ' . a:what)
  endif
endfunction
edit lesson.chl
call s:Hold('the file type', &filetype ==# 'chordlang')
call s:Hold('colours', get(b:, 'current_syntax', '') ==# 'chordlang')
call cursor(11, 33)
call s:Hold('a grip is one word', expand('<cword>') ==# '3-x-3-4-4-x')
ALEEnable
ALELint
let s:round = 0
while empty(ale#engine#GetLoclist(bufnr(''))) && s:round < 1000
  sleep 20m
  let s:round += 1
endwhile
let s:found = ale#engine#GetLoclist(bufnr(''))
call s:Hold('the finding', len(s:found) == 1 && s:found[0].lnum == 11 && s:found[0].text =~# 'Play fret 5 on string 2')
silent! make!
let s:quick = filter(getqflist(), 'v:val.valid')
call s:Hold(':make', len(s:quick) == 1 && s:quick[0].lnum == 11)
ALEStopAllLSPs
call writefile(s:failures, 'result')
if empty(s:failures)
  qall!
endif
cquit
