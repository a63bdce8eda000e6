;;; Waits for the finding, writes it down, takes the first correction on offer and saves the note.  -*- lexical-binding: t -*-
;;; The two arguments are the set-up and the note. A batch run loads no packages and ends no command by itself.
(require 'package)
(package-initialize)
(require 'flymake)

(defun until (what happens)
  "Wait until HAPPENS gives something, at most half a minute; WHAT names it."
  (let ((deadline (+ (float-time) 30)) result)
    (while (not (setq result (funcall happens)))
      (when (< deadline (float-time)) (error "%s" what))
      ;; Nobody types, so that there is no idle time: what would be done then, such as telling the server, is done here.
      (dolist (each (copy-sequence timer-idle-list)) (timer-event-handler each))
      (accept-process-output nil 0.05))
    result))

(let ((set-up (pop command-line-args-left))
      (note (pop command-line-args-left)))
  (load (expand-file-name set-up) nil t t)
  (find-file note)
  (run-hooks 'post-command-hook)
  (let* ((found (until "nothing was found" #'flymake-diagnostics))
         (first (car found)))
    (with-temp-file "found"
      (dolist (each found)
        (insert (format "%d %s\n"
                        (with-current-buffer (flymake-diagnostic-buffer each)
                          (line-number-at-pos (flymake-diagnostic-beg each)))
                        (flymake-diagnostic-text each)))))
    (cl-letf (((symbol-function 'completing-read)
               (lambda (_ choices &rest _) (let ((choice (car choices))) (if (consp choice) (car choice) choice)))))
      (eglot-code-actions (flymake-diagnostic-beg first) (flymake-diagnostic-end first) "quickfix" t))
    (until "nothing was mended" #'buffer-modified-p)
    (until "the finding stays" (lambda () (null (flymake-diagnostics))))
    (save-buffer)
    (eglot-shutdown (eglot-current-server))))
