" How arrangements are edited, for Vim and Neovim: comments, indentation, words, folding by section, checking by :make.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=://,:> commentstring=//\ %s
setlocal expandtab shiftwidth=4 softtabstop=4 autoindent
" A chord, a grip and a count are one word each: C#m7b5/G, x-3-5-4-5-x, 3&, 3+2/5, E♭maj7.
setlocal iskeyword=@,48-57,_,-,#,&,+,/,@-@,(,),192-255
setlocal foldmethod=expr foldexpr=getline(v:lnum)=~#'^\\s*section\\>'?'>1':'=' foldlevel=99
" check prints the place on one line and the sentence on the next.
setlocal makeprg=chordlang\ check\ %:S
setlocal errorformat=%A%f\\,\ line\ %l%.%#,%Z\ \ %t%*[a-z]:\ %m,%-G%.%#

let b:undo_ftplugin = 'setlocal comments< commentstring< expandtab< shiftwidth< softtabstop< autoindent< iskeyword< foldmethod< foldexpr< foldlevel< makeprg< errorformat<'
