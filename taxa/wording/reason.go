package wording

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"syscall"
)

// reason is why the operating system does not do something, and how that is told.
type reason struct {
	is   error
	said string
}

// reasons are the commonest ones, the narrower before the wider.
func reasons() []reason {
	return []reason{
		{syscall.ENOTEMPTY, Mark("that folder is not empty")},
		{syscall.ENOTDIR, Mark("a part of its path is no folder")},
		{syscall.EISDIR, Mark("that is a folder")},
		{syscall.EROFS, Mark("nothing can be written there: the disk, card or folder is for reading alone")},
		{syscall.ENOSPC, Mark("the disk or card is full")},
		{syscall.EDQUOT, Mark("your share of the disk is used up")},
		{syscall.EFBIG, Mark("the file would be too large for this disk or card")},
		{syscall.EIO, Mark("the disk or card fails")},
		{syscall.ENAMETOOLONG, Mark("the name is too long")},
		{syscall.ELOOP, Mark("links lead in a circle")},
		{syscall.EXDEV, Mark("that lies on another disk")},
		{syscall.EBUSY, Mark("another program keeps it busy")},
		{syscall.EMFILE, Mark("too many files are open")},
		{syscall.ENFILE, Mark("too many files are open")},
		{syscall.EPIPE, Mark("whoever was to read it has ended")},
		{syscall.ECONNREFUSED, Mark("nobody answers at that address")},
		{syscall.EADDRINUSE, Mark("another program uses that port already")},
		{syscall.ETIMEDOUT, Mark("no answer came in time")},
		{fs.ErrNotExist, Mark("there is no such file or folder there")},
		{fs.ErrPermission, Mark("you have no right to do that there")},
		{fs.ErrExist, Mark("that exists already")},
		{fs.ErrClosed, Mark("the file is closed already")},
		{os.ErrDeadlineExceeded, Mark("no answer came in time")},
		{io.ErrUnexpectedEOF, Mark("it ends too early")},
		{io.EOF, Mark("it ends there")},
		{io.ErrShortWrite, Mark("not all of it was written")},
	}
}

// Reason is an error in which what the operating system says is told in the language
// in use: the commonest reasons in its words, others quoted as what the system says. The
// cause stays to be asked for with [errors.Is] and [errors.As]. In English it is the
// error itself, and so it is where the system says nothing in it.
func Reason(err error) error { return reasonBeside(err, "") }

// reasonBeside is [Reason] of an error that stands in a sentence beside other words: a
// path that these name is not told again.
func reasonBeside(err error, beside string) error {
	if err == nil || Language() == "en" {
		return err
	}
	text := err.Error()
	if said := retold(err, text, beside); said != text {
		return &retoldError{said, err}
	}
	return err
}

type retoldError struct {
	said  string
	cause error
}

func (e *retoldError) Error() string { return e.said }

func (e *retoldError) Unwrap() error { return e.cause }

// retold is a text that holds the words of an error, with those of the system in it
// said in the language in use.
func retold(err error, text, beside string) string {
	switch e := err.(type) {
	case *retoldError:
		return text
	case *fs.PathError:
		return instead(text, e.Error(), because(e.Err), unnamed(e.Path, beside))
	case *os.LinkError:
		return instead(text, e.Error(), because(e.Err), unnamed(e.New, beside))
	case *os.SyscallError:
		return instead(text, e.Error(), because(e.Err), "")
	case syscall.Errno:
		return instead(text, e.Error(), because(e), "")
	case interface{ Temporary() bool }:
		return instead(text, err.Error(), because(err), "")
	case interface{ Unwrap() error }:
		if within := e.Unwrap(); within != nil {
			return retold(within, text, beside)
		}
	case interface{ Unwrap() []error }:
		for _, within := range e.Unwrap() {
			text = retold(within, text, beside)
		}
		return text
	}
	if slices.ContainsFunc(reasons(), known(err)) {
		return instead(text, err.Error(), because(err), "")
	}
	return text
}

// unnamed is a path unless it stands beside it already.
func unnamed(path, beside string) string {
	if strings.Contains(beside, path) {
		return ""
	}
	return path
}

// instead puts a reason in the place of the system's words, after the path unless
// that is told beside them already.
func instead(text, system, reason, path string) string {
	before, after, found := strings.Cut(text, system)
	if !found {
		return text
	}
	if path != "" && !strings.Contains(before, path) && !strings.Contains(after, path) {
		reason = path + ": " + reason
	}
	return before + reason + after
}

func known(err error) func(reason) bool {
	return func(r reason) bool { return errors.Is(err, r.is) }
}

// because is why the system could not do it, in the language in use.
func because(err error) string {
	all := reasons()
	if at := slices.IndexFunc(all, known(err)); at >= 0 {
		return Text(all[at].said)
	}
	return Sprintf(Mark("the system says \"%s\""), err.Error())
}
