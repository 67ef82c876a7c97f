package taxa

import (
	"bytes"
	"path"

	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// mostSmall is what a small picture has in bytes at most.
const mostSmall = 512 << 10

// open takes a picture as it is: what comes with a page is small already, and a page
// holds nothing that could make it so.
func (p *Photo) open(files folder, name string) (message, hint string) {
	data, err := authored.ReadUpTo(mostSmall, files.fsys, name, path.Join(files.dir, name))
	if err != nil || !bytes.HasPrefix(data, []byte("\xff\xd8\xff")) {
		return wording.Text("this page cannot show the photograph"), wording.Text("make the page again with 'rillkey pocket'")
	}
	p.small = func() ([]byte, error) { return data, nil }
	return "", ""
}
