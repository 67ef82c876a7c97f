package photo

import (
	"bytes"
	"encoding/binary"
)

// lying is where a pixel of an upright picture, w by h, lies in the file. The eight
// ways to lie are those of the tag Orientation, 274, of TIFF 6.0 and Exif (CIPA
// DC-008).
func lying(turned, x, y, w, h int) (int, int) {
	switch turned {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return y, w - 1 - x
	case 7:
		return h - 1 - y, w - 1 - x
	case 8:
		return h - 1 - y, x
	}
	return x, y
}

// orientation is how the picture of a JPEG file lies, 1 where that is not said.
func orientation(data []byte) int {
	if len(data) < 4 || data[0] != 0xff || data[1] != 0xd8 {
		return 1
	}
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		size := int(binary.BigEndian.Uint16(data[at+2:]))
		if size < 2 || at+2+size > len(data) {
			return 1
		}
		if tiff, ok := bytes.CutPrefix(data[at+4:at+2+size], []byte("Exif\x00\x00")); ok && data[at+1] == 0xe1 {
			return tagged(tiff)
		}
		at += 2 + size
	}
	return 1
}

// tagged is the orientation that the first table of a TIFF block says.
func tagged(tiff []byte) int {
	var order binary.ByteOrder = binary.BigEndian
	if bytes.HasPrefix(tiff, []byte("II")) {
		order = binary.LittleEndian
	}
	if len(tiff) < 8 {
		return 1
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			break
		}
		if order.Uint16(entries) == 274 {
			if v := int(order.Uint16(entries[8:])); v >= 1 && v <= 8 {
				return v
			}
			break
		}
		entries = entries[12:]
	}
	return 1
}
