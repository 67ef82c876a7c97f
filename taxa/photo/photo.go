// Package photo makes a small JPEG picture of a photograph. Only pixels come out of a
// file: no place, no date, no name of a camera, nothing else that it may hold.
package photo

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // the other format that is read

	"rillkey/taxa/wording"
)

// The bounds of a file.
const (
	MostBytes  = 8 << 20
	mostPixels = 16_000_000
	leastSide  = 32 // pixels
)

// longest is the longer side of a small picture in pixels, and quality how much of
// it is kept: enough for 60 mm of paper at 200 dots an inch.
const (
	longest = 480
	quality = 80
)

var errKind = wording.NewError("it is no JPEG or PNG picture that can be read")

// CheckHead refuses what is no picture, or one that is too large or too small, by the
// head of its file.
func CheckHead(data []byte) error {
	head, kind, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil || kind != "jpeg" && kind != "png":
		return errKind
	case head.Width < leastSide || head.Height < leastSide:
		return wording.Errorf("it has %d x %d pixels, too few to see an animal", head.Width, head.Height)
	case head.Height > mostPixels/head.Width:
		return wording.Errorf("it has %d x %d pixels; at most %d million are read", head.Width, head.Height, mostPixels/1_000_000)
	}
	return nil
}

// Small is the picture as a JPEG file of at most 480 by 480 pixels, upright.
func Small(data []byte) ([]byte, error) {
	if len(data) > MostBytes {
		return nil, wording.Errorf("it has more than %d MB", MostBytes>>20)
	}
	if err := CheckHead(data); err != nil {
		return nil, err
	}
	full, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, errKind
	}
	var out bytes.Buffer
	err = jpeg.Encode(&out, smaller(full, orientation(data)), &jpeg.Options{Quality: quality})
	return out.Bytes(), err
}

// smaller is a picture made small and turned upright.
func smaller(from image.Image, turned int) *image.RGBA {
	b := from.Bounds()
	w, h := b.Dx(), b.Dy()
	if turned >= 5 { // it lies on its side
		w, h = h, w
	}
	scale := max(1, float64(max(w, h))/longest)
	small := image.NewRGBA(image.Rect(0, 0, max(1, int(float64(w)/scale)), max(1, int(float64(h)/scale))))
	for y := range small.Rect.Max.Y {
		for x := range small.Rect.Max.X {
			small.SetRGBA(x, y, mean(from, turned, float64(x)*scale, float64(y)*scale, scale, w, h))
		}
	}
	return small
}

// mean is the mean colour of a square of an upright picture, over white paper, from
// up to four by four of its pixels.
func mean(from image.Image, turned int, x0, y0, side float64, w, h int) color.RGBA {
	n := min(4, int(side)+1)
	var r, g, b, count uint32
	for i := range n {
		for j := range n {
			x := min(w-1, int(x0+side*(float64(i)+0.5)/float64(n)))
			y := min(h-1, int(y0+side*(float64(j)+0.5)/float64(n)))
			x, y = lying(turned, x, y, w, h)
			pr, pg, pb, pa := from.At(from.Bounds().Min.X+x, from.Bounds().Min.Y+y).RGBA()
			r, g, b = r+pr+0xffff-pa, g+pg+0xffff-pa, b+pb+0xffff-pa
			count += 0x101
		}
	}
	return color.RGBA{uint8(r / count), uint8(g / count), uint8(b / count), 0xff}
}
