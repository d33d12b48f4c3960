;;; chordlang-mode.el --- Arrangements for jazz guitar as plain text -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages

;;; Commentary:

;; Colours, comments, indentation, outline and checking of ChordLang files (.chl), and the
;; server's entries for eglot and lsp-mode.  Needs the program `chordlang' on the PATH for all but the colours.

;;; Code:

(require 'outline)

(defvar compilation-environment)

(defgroup chordlang nil
  "Arrangements for jazz guitar as plain text."
  :group 'languages)

(defcustom chordlang-command '("chordlang" "serve")
  "The language server: a program and its arguments."
  :type '(repeat string))

(defvar chordlang-mode-syntax-table
  (let ((table (make-syntax-table)))
    ;; A chord, a grip and a count are one symbol each: C#m7b5/G, x-3-5-4-5-x, 3&, 3+2/5.
    (dolist (sign '(?# ?& ?+ ?- ?/ ?@ ?\( ?\) ?♭ ?♯ ?Δ ?ø ?°))
      (modify-syntax-entry sign "_" table))
    (modify-syntax-entry ?\" "." table)
    (modify-syntax-entry ?\\ "." table)
    table)
  "What a letter, a sign and a blank are in arrangements.")

(defconst chordlang--count "[0-9]\\{1,2\\}\\(?:&\\|e\\|a\\|trip\\|let\\|\\+[0-9]+/[0-9]+\\)?")

(defconst chordlang--row
  (concat "^[ \t]+\\(?:[[:alpha:]][[:alnum:]-]*:[ \t]*\\)?" chordlang--count "[ \t]")
  "How a row begins.")

(defun chordlang--in (opening pattern group)
  "A matcher: PATTERN on lines that match OPENING; GROUP is where the match ends."
  (lambda (limit)
    (let (found)
      (while (and (not found) (re-search-forward pattern limit t))
        (goto-char (match-end group))
        (setq found (save-match-data
                      (save-excursion
                        (beginning-of-line)
                        (looking-at-p opening)))))
      found)))

(defconst chordlang-font-lock-keywords
  `(("^[ \t]*//.*$" (0 font-lock-comment-face t))
    ("^[ \t]*>.*$" (0 font-lock-doc-face t))
    ("^\\([<=>|]\\)\\1\\{6\\}.*$" (0 font-lock-warning-face t))
    ("^[ \t]*\\(title\\|by\\|tags\\)[ \t]+\\(.*\\)$" (1 font-lock-keyword-face) (2 font-lock-string-face t))
    ("^[ \t]*\\(section\\)[ \t]+\\(.*?\\)\\([ \t]+again\\)?[ \t]*$"
     (1 font-lock-keyword-face) (2 font-lock-function-name-face t) (3 font-lock-keyword-face t t))
    ("^[ \t]*\\(shape\\)[ \t]+\\([^ \t\n]+\\)" (1 font-lock-keyword-face) (2 font-lock-variable-name-face))
    ("^[ \t]*\\(key\\|meter\\|tempo\\|feel\\|strings\\|capo\\|frets\\|scale-length\\|reach\\|naming\\|position\\|use\\|expect\\)[ \t]"
     1 font-lock-keyword-face)
    ("^[ \t]*\\(repeat\\|ending\\|end\\|pickup from\\|segno\\|to coda\\|coda\\|fine\\|da capo\\(?: al \\(?:fine\\|coda\\)\\)?\\|dal segno\\(?: al \\(?:fine\\|coda\\)\\)?\\)\\_>"
     1 font-lock-keyword-face)
    ("^[ \t]+\\([[:alpha:]][[:alnum:]-]*:\\)" 1 font-lock-variable-name-face)
    ("\"[^\"\n]*\"" 0 font-lock-string-face)
    (,(chordlang--in "^[ \t]*|[^|]" "[ |]\\([A-G][^ |\t\n]*\\)" 1) 1 font-lock-type-face)
    (,(chordlang--in "^[ \t]*|[^|]" "[ |]\\(%\\|N\\.C\\.\\)" 1) 1 font-lock-builtin-face)
    (,(chordlang--in (concat "^[ \t]*|[^|]\\|" chordlang--row) (concat "[ \t]\\(" chordlang--count "\\)\\(?:[ \t]\\|$\\)") 1)
     1 font-lock-constant-face)
    (,(chordlang--in chordlang--row "[ \t]\\(\\(?:x\\|[0-9]\\{1,2\\}\\)\\(?:-\\(?:x\\|[0-9]\\{1,2\\}\\)\\)\\{3,8\\}\\|[0-9]\\{1,2\\}@[1-9]\\|x[x0-9]+\\)" 1)
     1 font-lock-function-name-face)
    (,(chordlang--in chordlang--row "[ \t]\\(rest\\|tied\\|again\\)\\_>" 1) 1 font-lock-builtin-face)
    (,(chordlang--in chordlang--row
       (concat "[ \t]\\(ring\\(?: over\\| until\\)?\\|short\\|accent\\|fermata\\|roll\\|slur\\|hammer\\|pull\\|slide\\(?: from\\)?"
               "\\|grace\\|bend\\(?: half\\| full\\| to\\)?\\|vibrato\\|harmonic\\|palm-mute\\|dead\\|fingers?\\|pluck\\|is\\|unsure\\|mp\\|mf\\|p\\|f\\)"
               "\\(?:@[1-9]\\)?\\(?:[ \t]\\|$\\)") 1)
     1 font-lock-preprocessor-face))
  "Colours of arrangements without a server.")

(defun chordlang-indent-line ()
  "Indent the line by four where it is a row, else not at all."
  (interactive)
  (let ((row (save-excursion
               (beginning-of-line)
               (looking-at-p (concat "[ \t]*\\(?:[[:alpha:]][[:alnum:]-]*:[ \t]*\\)?" chordlang--count "\\(?:[ \t]\\|$\\)"))))
        (blank (save-excursion (beginning-of-line) (looking-at-p "[ \t]*$")))
        (under (save-excursion
                 (and (zerop (forward-line -1)) (looking-at-p (concat "[ \t]*|[^|\n]*$\\|" chordlang--row))))))
    (let ((column (if (or row (and blank under)) 4 0)))
      (if (<= (current-column) (current-indentation))
          (indent-line-to column)
        (save-excursion (indent-line-to column))))))

;;;###autoload
(define-derived-mode chordlang-mode prog-mode "ChordLang"
  "Major mode for arrangements for jazz guitar."
  (setq-local font-lock-defaults '(chordlang-font-lock-keywords t)
              comment-start "// " comment-end "" comment-start-skip "//+[ \t]*"
              indent-line-function #'chordlang-indent-line
              indent-tabs-mode nil tab-width 4
              outline-regexp "[ \t]*section[ \t]"
              outline-level (lambda () 1)
              imenu-generic-expression '((nil "^[ \t]*section[ \t]+\\(.+\\)$" 1) ("Shapes" "^[ \t]*shape[ \t]+\\([^ \t\n]+\\)" 1))
              ;; Some Emacs name a terminal here that programs answer with control signs.
              compilation-environment '("TERM=dumb")
              compile-command (when buffer-file-name
                                (concat "chordlang check " (shell-quote-argument (file-name-nondirectory buffer-file-name))))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.chl\\'" . chordlang-mode))

;; `M-x compile' jumps to the findings of `chordlang check'.
(with-eval-after-load 'compile
  (defvar compilation-error-regexp-alist)
  (defvar compilation-error-regexp-alist-alist)
  (add-to-list 'compilation-error-regexp-alist-alist '(chordlang "^\\(.+?\\.chl\\), line \\([0-9]+\\)" 1 2 nil 1))
  (add-to-list 'compilation-error-regexp-alist 'chordlang))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs (cons 'chordlang-mode chordlang-command)))

(defvar lsp-language-id-configuration)
(declare-function lsp-register-client "lsp-mode")
(declare-function make-lsp-client "lsp-mode")
(declare-function lsp-stdio-connection "lsp-mode")
(declare-function lsp-activate-on "lsp-mode")
(with-eval-after-load 'lsp-mode
  (add-to-list 'lsp-language-id-configuration '(chordlang-mode . "chordlang"))
  (lsp-register-client
   (make-lsp-client :new-connection (lsp-stdio-connection (lambda () chordlang-command))
                    :activation-fn (lsp-activate-on "chordlang")
                    :server-id 'chordlang)))

(provide 'chordlang-mode)
;;; chordlang-mode.el ends here
