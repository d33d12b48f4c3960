;; What the lsp-mode block of the Emacs page promises.
(require 'flymake)
(defun hold (what kept) (unless kept (message "not kept: %s" what) (kill-emacs 1)))
(defun within (seconds question)
  (let ((end (+ (float-time) seconds)) answer)
    (while (and (not (setq answer (funcall question))) (< (float-time) end)) (accept-process-output nil 0.05))
    answer))

;; Nobody is there to be asked which folder is the root.
(setq lsp-auto-guess-root t lsp-guess-root-without-session t lsp-enable-snippet nil lsp-diagnostics-provider :flymake
      lsp-session-file (expand-file-name "session" (getenv "HOME")))
(find-file "lesson.chl")
(lsp)
(hold "the finding" (within 30 (lambda () (> (hash-table-count (lsp-diagnostics t)) 0))))
(let ((found (car (car (hash-table-values (lsp-diagnostics t))))))
  (hold "its sentence" (string-match-p "Play fret 5 on string 2" (lsp:diagnostic-message found))))
(goto-char (point-min))
(search-forward "3-x-3-4")
(hold "the explanation" (string-match-p "sounds G2" (gethash "value" (gethash "contents" (lsp-request "textDocument/hover" (lsp--text-document-position-params))))))
(set-buffer-modified-p nil)
(kill-emacs 0)
