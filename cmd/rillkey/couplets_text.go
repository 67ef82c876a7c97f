package main

import (
	"bytes"
	"io/fs"
	"time"
)

// oneFile is a file system with one file in it, the text of a key, so that what
// was made can be read back before it is written.
type oneFile []byte

func (f oneFile) Open(string) (fs.File, error) {
	return openText{bytes.NewReader(f), int64(len(f))}, nil
}

type openText struct {
	*bytes.Reader
	size int64
}

func (t openText) Stat() (fs.FileInfo, error) { return textInfo(t.size), nil }
func (t openText) Close() error               { return nil }

type textInfo int64

func (textInfo) Name() string       { return "key" }
func (i textInfo) Size() int64      { return int64(i) }
func (textInfo) Mode() fs.FileMode  { return 0o444 }
func (textInfo) ModTime() time.Time { return time.Time{} }
func (textInfo) IsDir() bool        { return false }
func (textInfo) Sys() any           { return nil }
