package beside

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"regexp"
	"strconv"
)

// Name is what the file of a picture is called: the SHA-256 of its bytes in 64 lower-case hexadecimal digits, and .png or
// .jpg. A plan names its pictures so.
type Name string

var formOfName = regexp.MustCompile(`^[0-9a-f]{64}\.(png|jpg)$`)

// ParseName takes a name from outside, such as a plan's file; anything else than a Name is refused.
func ParseName(text string) (Name, error) {
	if !formOfName.MatchString(text) {
		return "", fmt.Errorf("%s does not name a picture beside a plan: 64 digits 0 to 9 and a to f with .png or .jpg are wanted", quoted(text))
	}
	return Name(text), nil
}

// nameOf is the name of bytes in a form.
func nameOf(data []byte, form Form) Name {
	sum := sha256.Sum256(data)
	return Name(hex.EncodeToString(sum[:]) + "." + string(form))
}

// valid reports whether the name is one; a Name may be converted from any text.
func (n Name) valid() error {
	_, err := ParseName(string(n))
	return err
}

// form is that which the name says.
func (n Name) form() Form { return Form(n[len(n)-3:]) }

// short is the name as messages tell it.
func (n Name) short() string { return string(n[:8]) + "…" + string(n[len(n)-4:]) }

// quoted is a text from outside in a message: in quotes, without control characters and not too long.
func quoted(text string) string {
	const most = 40
	runes := []rune(text)
	if len(runes) > most {
		runes = append(runes[:most:most], '…')
	}
	return strconv.Quote(string(runes))
}
