package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
)

// corner is a picture, red in its corner at the top left of the file, else blue.
func corner(w, h int) image.Image {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{0, 0, 255, 255}
			if x < w/2 && y < h/2 {
				c = color.RGBA{255, 0, 0, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}

func asPNG(m image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// withTag is a JPEG file that says how it lies, and where it was taken.
func withTag(m image.Image, turned uint16) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		panic(err)
	}
	tiff := binary.BigEndian.AppendUint16([]byte("MM\x00\x2a\x00\x00\x00\x08\x00\x01"), 274)
	tiff = append(tiff, 0, 3, 0, 0, 0, 1)
	tiff = append(binary.BigEndian.AppendUint16(tiff, turned), 0, 0, 0, 0, 0, 0)
	block := append([]byte("Exif\x00\x00"), append(tiff, "taken at the secret brook"...)...)
	out := binary.BigEndian.AppendUint16([]byte{0xff, 0xd8, 0xff, 0xe1}, uint16(len(block)+2))
	return append(append(out, block...), b.Bytes()[2:]...)
}

func TestAPhotographComesOutSmallUprightAndBare(t *testing.T) {
	// Where the corner at the top left of the file comes to lie, by the table of the
	// tag Orientation (TIFF 6.0, tag 274): the side of row 0 and that of column 0.
	for turned, want := range map[uint16][2]bool{ // right, below
		1: {false, false}, 2: {true, false}, 3: {true, true}, 4: {false, true},
		5: {false, false}, 6: {true, false}, 7: {true, true}, 8: {false, true},
	} {
		if testing.Short() && turned != 1 && turned != 6 && turned != 7 {
			continue
		}
		out, err := Small(withTag(corner(1200, 800), turned))
		if err != nil {
			t.Fatal(err)
		}
		m, kind, err := image.Decode(bytes.NewReader(out))
		if err != nil || kind != "jpeg" || bytes.Contains(out, []byte("Exif")) || bytes.Contains(out, []byte("secret")) {
			t.Fatalf("%s, %v: something else came out than pixels", kind, err)
		}
		size := m.Bounds().Size()
		if wide := turned < 5; wide && size != image.Pt(480, 320) || !wide && size != image.Pt(320, 480) {
			t.Errorf("%d: %v", turned, size)
		}
		for _, right := range []bool{false, true} {
			for _, below := range []bool{false, true} {
				x, y := size.X/4, size.Y/4
				if right {
					x = size.X * 3 / 4
				}
				if below {
					y = size.Y * 3 / 4
				}
				r, _, b, _ := m.At(x, y).RGBA()
				if red := r > b; red != ([2]bool{right, below} == want) {
					t.Errorf("%d: at %d, %d red is %v", turned, x, y, red)
				}
			}
		}
	}
}

// Cameras write the numbers of Exif in either order of bytes (TIFF 6.0; memory), put
// other blocks and other tags first, and some end a block too early.
func TestHowAPhotographLiesIsReadAsCamerasWriteIt(t *testing.T) {
	block := func(marker byte, text string) string {
		return string(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(text)+2))) + text
	}
	const jfif = "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00"
	little := "II\x2a\x00\x08\x00\x00\x00\x02\x00" +
		"\x0f\x01\x02\x00\x04\x00\x00\x00cam\x00" + // 271, the maker
		"\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00" // 274, 6
	for _, row := range []struct {
		why, file string
		want      int
	}{
		{"least byte first, behind another tag", block(0xe1, "Exif\x00\x00"+little), 6},
		{"behind the block of JFIF", block(0xe0, jfif) + block(0xe1, "Exif\x00\x00"+little), 6},
		{"without Exif", block(0xe0, jfif), 1},
		{"another block of the same marker", block(0xe1, "http://ns.example/\x00<x/>"), 1},
		{"without the tag", block(0xe1, "Exif\x00\x00"+strings.Replace(little, "\x12\x01", "\x13\x01", 1)), 1},
		{"a way to lie that there is not", block(0xe1, "Exif\x00\x00"+strings.Replace(little, "\x06\x00\x00", "\x09\x00\x00", 1)), 1},
		{"cut within the table", block(0xe1, "Exif\x00\x00"+little[:20]), 1},
		{"cut within its head", block(0xe1, "Exif\x00\x00"+little[:6]), 1},
		{"a table beyond the end", block(0xe1, "Exif\x00\x00II\x2a\x00\xff\x00\x00\x00"), 1},
		{"a block longer than the file", "\xff\xe1\xff\xffExif\x00\x00" + little, 1},
	} {
		if got := orientation([]byte("\xff\xd8" + row.file)); got != row.want {
			t.Errorf("%s: %d, not %d", row.why, got, row.want)
		}
	}
}

func TestWhatIsNoPhotographIsRefused(t *testing.T) {
	huge := asPNG(corner(40, 40))
	binary.BigEndian.PutUint32(huge[16:], 600_000) // its width, with the checksum of its head
	binary.BigEndian.PutUint32(huge[29:], crc32.ChecksumIEEE(huge[12:29]))
	for _, row := range []struct {
		data []byte
		want string
	}{
		{nil, "no JPEG or PNG"},
		{[]byte("<svg/>"), "no JPEG or PNG"},
		{asPNG(corner(8, 8)), "too few"},
		{huge, "million"},
		{asPNG(corner(64, 64))[:90], "no JPEG or PNG"},
		{make([]byte, MostBytes+1), "more than"},
	} {
		if _, err := Small(row.data); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%v, want %s", err, row.want)
		}
	}
	if out, err := Small(asPNG(image.NewAlpha(image.Rect(0, 0, 40, 40)))); err != nil {
		t.Error(err)
	} else if m, _, _ := image.Decode(bytes.NewReader(out)); m.At(9, 9) != m.At(0, 0) ||
		func() bool { r, _, _, _ := m.At(9, 9).RGBA(); return r < 0xf000 }() {
		t.Error("what is not there is not white")
	}
}

func FuzzAnyPhotograph(f *testing.F) {
	f.Add(asPNG(corner(40, 34)))
	f.Add(withTag(corner(40, 34), 6))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x12Exif\x00\x00II\x2a\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := CheckHead(data); err != nil {
			orientation(data)
			return
		}
		if head, _, _ := image.DecodeConfig(bytes.NewReader(data)); head.Width*head.Height > 1<<20 {
			return // takes long
		}
		out, err := Small(data)
		if err == nil && bytes.Contains(out, []byte("Exif")) {
			t.Error("metadata came out")
		}
	})
}
