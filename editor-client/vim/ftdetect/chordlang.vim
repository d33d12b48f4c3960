" Files that end in .chl are arrangements.
autocmd BufNewFile,BufRead *.chl setfiletype chordlang
