" Colours of arrangements without a server, for Vim and Neovim. The groups follow the kinds of line that grammar/LANGUAGE.md tells apart.
if exists('b:current_syntax')
  finish
endif
syntax case match

" Lines, told by their first word.
syntax match chlSettingLine /^\s*\%(key\|meter\|tempo\|feel\|strings\|capo\|frets\|scale-length\|reach\|naming\|position\)\>.*/ contains=chlSetting,chlNumber,chlValue,chlPitch
syntax match chlTextLine /^\s*\%(title\|by\|tags\)\>.*/ contains=chlSetting
syntax match chlSectionLine /^\s*section\>.*/ contains=chlOpener,chlAgain
syntax match chlFormLine /^\s*\%(repeat\|ending\|end\|pickup from\|segno\|coda\|to coda\|fine\|da capo\|dal segno\)\>.*/ contains=chlForm,chlCount
syntax match chlExpectLine /^\s*expect\>.*/ contains=chlOpener,chlNumber
syntax match chlShapeLine /^\s*\%(shape\|use\)\>.*/ contains=chlOpener,chlShapeName,chlGrip,chlEqual,chlMark,chlQuote
syntax match chlChartLine /^\s*|.*/ contains=chlBar,chlChartCount,chlChord,chlSign
syntax match chlRow /^\s\+\%([[:alpha:]][[:alnum:]-]*:\)\?\s*\d\{1,2}\%(&\|e\|a\|trip\|let\|+\d\+\/\d\+\)\?\s.*/ contains=chlLabel,chlCount,chlPitch,chlGrip,chlFret,chlSound,chlMark,chlOperand,chlName,chlEqual,chlQuote,chlTo
syntax match chlProse /^\s*>.*/ contains=@Spell
syntax match chlComment /^\s*\/\/.*/ contains=chlAllow,@Spell
syntax match chlMerge /^\([<=>|]\)\1\{6}.*/

" Words.
syntax match chlSetting /^\s*\zs[a-z-]\+/ contained
syntax match chlOpener /^\s*\zs\%(section\|shape\|use\|expect\)\>/ contained
syntax match chlForm /\<\%(repeat\|ending\|end\|pickup from\|segno\|to coda\|coda\|fine\|da capo\|dal segno\|al fine\|al coda\)\>/ contained
syntax match chlAgain /\<again\s*$/ contained
syntax match chlValue /\<\%(major\|minor\|ionian\|dorian\|phrygian\|lydian\|mixolydian\|aeolian\|locrian\|sharps\?\|flats\?\|rubato\|around\|swing\|straight\|jazz\|strict\|mm\|cm\|in\|to\)\>/ contained
syntax match chlShapeName /\%(\<shape\s\+\)\@<=\S\+/ contained
syntax match chlBar /|/ contained
syntax match chlSign /\%(^\|[ |]\)\@<=\%(%\|N\.C\.\|\/\)\ze\%($\|[ |]\)/ contained
syntax match chlChord /\%(^\|[ |]\)\@<=[A-G][^ |]*/ contained
syntax match chlChartCount /\%([ |]\)\@<=\d\{1,2}\%(&\|e\|a\|trip\|let\|+\d\+\/\d\+\)\?\ze\s/ contained
syntax match chlLabel /^\s\+\zs[[:alpha:]][[:alnum:]-]*:/ contained
syntax match chlCount /\%(^\|\s\)\@<=\d\{1,2}\%(&\|e\|a\|trip\|let\|+\d\+\/\d\+\)\?\ze\%(\s\|$\)/ contained
syntax match chlName /\<[a-z][a-z0-9-]*[a-z]\%(+\d\+\| at \d\+\)\?\ze\%(\s\|$\)/ contained contains=chlMark,chlSound,chlOperand
syntax match chlPitch /\%(^\|[ +]\)\@<=[A-G]\%(##\?\|bb\?\|♭♭\?\|♯♯\?\)\?\d\?\%(@\d\)\?\ze\%([ +]\|$\)/ contained
syntax match chlGrip /\%(^\|\s\)\@<=\%(x\|\d\{1,2}\)\%(-\%(x\|\d\{1,2}\)\)\{3,8}\ze\%(\s\|$\)/ contained
syntax match chlGrip /\%(^\|\s\)\@<=[x0-9]*x[x0-9]*\ze\%(\s\|$\)/ contained
syntax match chlFret /\%(^\|[ +]\)\@<=\d\{1,2}@\d\ze\%([ +]\|$\)/ contained
syntax match chlSound /\<\%(rest\|tied\|again\)\>/ contained
syntax match chlMark /\%(\s\)\@<=\%(ring over\|ring until\|ring\|short\|accent\|fermata\|roll\|slur\|hammer\|pull\|slide from below\|slide from above\|slide from\|slide\|grace\|bend half\|bend full\|bend to\|vibrato\|harmonic\|palm-mute\|dead\|fingers\|finger\|pluck\|is\|unsure\|mp\|mf\|p\|f\)\%(@\d\)\?\ze\%(\s\|$\)/ contained
syntax match chlOperand /\%(\<is\s\+\)\@<=[A-G]\S*/ contained
syntax match chlOperand /\%(\<pluck\s\+\)\@<=\S\+/ contained
syntax match chlOperand /\%(\<fingers\?\s\+\)\@<=\S\+/ contained
syntax match chlTo /\<to\ze\s\+\d/ contained
syntax match chlEqual /\%(\s\)\@<==\ze\s/ contained
syntax match chlNumber /\<\d\+\%([.\/]\d\+\)\?\>/ contained
syntax region chlQuote start=/"/ end=/"/ oneline contained
syntax match chlAllow /\%(\/\/\s*\)\@<=allow\s\+[a-z-]\+/ contained

highlight default link chlSetting Keyword
highlight default link chlOpener Keyword
highlight default link chlForm Keyword
highlight default link chlAgain Keyword
highlight default link chlTo Keyword
highlight default link chlTextLine String
highlight default link chlSectionLine Title
highlight default link chlValue Constant
highlight default link chlNumber Number
highlight default link chlShapeName Identifier
highlight default link chlName Identifier
highlight default link chlBar Delimiter
highlight default link chlSign Special
highlight default link chlChord Type
highlight default link chlLabel Label
highlight default link chlCount Number
highlight default link chlChartCount Number
highlight default link chlPitch Constant
highlight default link chlGrip Function
highlight default link chlFret Function
highlight default link chlSound Statement
highlight default link chlMark PreProc
highlight default link chlOperand Special
highlight default link chlEqual Operator
highlight default link chlQuote String
highlight default link chlProse String
highlight default link chlComment Comment
highlight default link chlAllow SpecialComment
highlight default link chlMerge Error

let b:current_syntax = 'chordlang'
