package drawing

// letters in the order in which they are given. I, O and Q are left out: on a
// dirty sheet they are read as 1 and 0.
const letters = "ABCDEFGHJKLMNPRSTUVWXYZ"

// letter is the n-th, from 0: A to Z, then AA, AB and so on.
func letter(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / len(letters) {
		s = string(letters[(n-1)%len(letters)]) + s
	}
	return s
}
