" The server's entry for ALE, which finds this file by itself once the folder is on the runtimepath.
call ale#Set('chordlang_executable', 'chordlang')
call ale#linter#Define('chordlang', {
\   'name': 'chordlang',
\   'lsp': 'stdio',
\   'executable': {b -> ale#Var(b, 'chordlang_executable')},
\   'command': '%e serve',
\   'language': 'chordlang',
\   'project_root': {b -> fnamemodify(bufname(b), ':p:h')},
\})
