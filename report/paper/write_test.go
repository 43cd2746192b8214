package paper_test

import (
	"bytes"
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/report/paper"
)

func TestOneOfEverything(t *testing.T) {
	var out bytes.Buffer
	print, err := paper.Write(context.Background(), &out, setup(), append(sampleChapters(), nastyChapters()...)...)
	require.NoError(t, err)
	require.Len(t, print.Entries, len(sampleChapters())+1)
	if path := os.Getenv("STAGELOOM_SAMPLE"); path != "" {
		require.NoError(t, os.WriteFile(path, out.Bytes(), 0o600))
	}
}
