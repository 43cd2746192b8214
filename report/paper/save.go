package paper

import (
	"context"
	"io"

	"stageloom/model/atomicfile"
)

// Save writes the chapters into the file at path. The file is whole or as it was
// before: an error of the disk is an *atomicfile.Failure, which says in words
// what to do.
func Save(ctx context.Context, path string, setup Setup, chapters ...Chapter) (Print, error) {
	var print Print
	err := atomicfile.Write(path, func(w io.Writer) (err error) {
		print, err = Write(ctx, w, setup, chapters...)
		return err
	}, nil)
	if err != nil {
		return Print{}, err
	}
	return print, nil
}
