package photo

import "fmt"

// How large a photo may be.
const (
	MostBytes  = 50 << 20
	MostPixels = 100_000_000
)

// RefusedError is a file that is no photo which can be kept. Say is a sentence for whoever sent it.
type RefusedError struct{ Say string }

func (e *RefusedError) Error() string { return e.Say }

func refused(say string, args ...any) error { return &RefusedError{fmt.Sprintf(say, args...)} }

const works = "JPEG, PNG, WebP and HEIC photos work"

func tooManyBytes() error {
	return refused("this file is larger than %d MB; send a smaller one (%s)", MostBytes>>20, works)
}

func tooManyPixels(width, height int) error {
	return refused("this picture says that it is %d × %d pixels; up to %d megapixels work", width, height, MostPixels/1_000_000)
}

func noPhoto(is string) error {
	return refused("this is %s, not a photo that can be kept; %s", is, works)
}

func moving(is string) error {
	return refused("this is a moving picture (%s); send a still one (%s)", is, works)
}

func damaged(is string) error {
	return refused("this %s cannot be read to its end: it is cut short or damaged; send it again from where it was taken (%s)", is, works)
}
