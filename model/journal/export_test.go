package journal

// Written is content as a line of a journal.
func Written(content string) []byte { return written([]byte(content)) }
