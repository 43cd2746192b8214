// Package clip copies part of a plan as text and pastes it into the same plan or another: devices and positions with
// the links between them, their ways, and cables by kind and length, since a reel lies in one link only. The text is
// a Delta in the file's own form behind a line that names it, read as strictly as a file.
package clip
