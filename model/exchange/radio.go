package exchange

import (
	"strings"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// readFrequency reads a frequency in megahertz: "518.250", "518,250 MHz", "518.25 mhz".
func readFrequency(text string) (float64, error) {
	if end := len(text) - len("mhz"); end > 0 && strings.EqualFold(text[end:], "mhz") {
		text = text[:end]
	}
	return fields.Of(plan.InputsTable, "frequency").Parse(words.Units{}, text)
}

// isFrequency reports whether a cell can be a frequency of a radio channel: counts and channels of television are smaller.
func isFrequency(text string) bool {
	frequency, err := readFrequency(text)
	return err == nil && frequency >= leastFrequency
}

// leastFrequency is below the lowest band, in MHz, that radio microphones are made for. Common practice, no source.
const leastFrequency = 25

// frequencyWords is a frequency as the table says it; blank where there is none.
func frequencyWords(frequency float64) string {
	return fields.Of(plan.InputsTable, "frequency").Text(fields.State{}, plan.Input{Frequency: frequency})
}

// isTick reports whether a cell says yes or no and no more; a number may be that of a channel.
func isTick(text string) bool { return isYesOrNo(text) && !isCount(text) }
