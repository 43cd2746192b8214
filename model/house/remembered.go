package house

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
)

// Word is a word of lists that somebody said the meaning of: what it was asked about for, such as a condition, the word as words
// are compared, and what it means.
type Word struct {
	For   string `json:"for"`
	Word  string `json:"word"`
	Means string `json:"means"`
}

// wordsHead begins the file of the words.
const wordsHead = "stageloom words 1\n"

// mostWords is how many words a house remembers, longestWord the signs of each part of one.
const (
	mostWords   = 20_000
	longestWord = 200
)

func (l Library) wordsFile() string { return filepath.Join(l.folder, "words.stageloom-words") }

// Words reads the words of lists that the house remembers. A file that cannot be read is an error that names it; it is never
// written over unread.
func (l Library) Words() ([]Word, error) {
	text, there, err := l.read(l.wordsFile(), "the words that your lists use")
	if !there {
		return nil, err
	}
	words, err := decodeWords(text)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read, so its words are asked about again: %w", l.wordsFile(), err)
	}
	return words, nil
}

// decodeWords reads the head and a line for each word, exactly as they were written.
func decodeWords(text []byte) (words []Word, err error) {
	body, found := bytes.CutPrefix(text, []byte(wordsHead))
	if !found {
		return nil, errors.New("it does not hold the words of lists that this version can read; move it away")
	}
	seen := map[Word]bool{}
	for n, line := range bytes.Split(bytes.TrimSuffix(body, []byte("\n")), []byte("\n")) {
		if len(body) == 0 {
			break
		}
		var word Word
		if err := json.Unmarshal(line, &word); err != nil {
			return nil, fmt.Errorf("line %d is no word (%s): put the file back from a copy or move it away", n+2, plan.ClippedTo(err.Error(), mostReason))
		}
		again, err := json.Marshal(word)
		key := Word{For: word.For, Word: word.Word}
		if err != nil || !bytes.Equal(again, line) || !word.sound() || seen[key] || len(words) == mostWords {
			return nil, fmt.Errorf("line %d is not as it was written: put the file back from a copy or move it away", n+2)
		}
		seen[key] = true
		words = append(words, word)
	}
	return words, nil
}

// sound reports whether a word can be remembered: nothing of it is blank or longer than a name.
func (w Word) sound() bool {
	for _, part := range []string{w.For, w.Word, w.Means} {
		if part == "" || utf8.RuneCountInString(part) > longestWord || !utf8.ValidString(part) {
			return false
		}
	}
	return true
}

// Remember adds words, or says anew what they mean; one that means nothing is forgotten. What is longer than a name is not kept.
func (l Library) Remember(said ...Word) error {
	if l.folder == "" || len(said) == 0 {
		return nil
	}
	lock, err := l.lock(l.wordsFile())
	if err != nil {
		return fmt.Errorf("what the words of the list mean was not kept: %w", err)
	}
	defer func() { _ = lock.Release() }() // the file stands; a lock left behind frees itself with the program
	words, err := l.Words()
	if err != nil {
		return err
	}
	for _, word := range said {
		words = slices.DeleteFunc(words, func(known Word) bool { return known.For == word.For && known.Word == word.Word })
		if word.sound() {
			words = append(words, word)
		}
	}
	if len(words) > mostWords {
		return fmt.Errorf("what the words of the list mean was not kept: the house remembers %d words and no more", mostWords)
	}
	slices.SortFunc(words, func(a, b Word) int { return cmp.Or(cmp.Compare(a.For, b.For), cmp.Compare(a.Word, b.Word)) })
	return atomicfile.Write(l.wordsFile(), func(w io.Writer) error {
		_, err := io.WriteString(w, encodeWords(words))
		return err
	}, nil)
}

func encodeWords(words []Word) string {
	var b strings.Builder
	b.WriteString(wordsHead)
	for _, word := range words {
		line, _ := json.Marshal(word) // three texts always can be
		b.Write(line)
		b.WriteString("\n")
	}
	return b.String()
}
