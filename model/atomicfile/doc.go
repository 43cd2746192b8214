// Package atomicfile replaces a file whole or not at all: a reader, a full disk or a pulled plug in the middle
// of a save never leaves half a file where a whole one was.
//
// The new content goes to a temporary file in the same folder, which is flushed to the disk and then renamed
// over the target; the folder is flushed last. Links are followed first, so that the file they lead to is
// replaced and the link stays. A file that was there keeps its mode.
package atomicfile
