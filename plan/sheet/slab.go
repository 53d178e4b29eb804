package sheet

// slab hands out short slices of a long one: many small things that live as long as
// each other cost one allocation.
type slab[T any] []T

func (s *slab[T]) take(n int) []T {
	if n > len(*s) {
		*s = make([]T, max(n, 64))
	}
	taken := (*s)[:n:n]
	*s = (*s)[n:]
	return taken
}

// one is a new T.
func (s *slab[T]) one() *T { return &s.take(1)[0] }
