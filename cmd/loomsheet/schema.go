package main

import "embed"

// schemas are the shapes of what --json prints, written by hand.
//
//go:embed schema/*.json
var schemas embed.FS

// schemaCommand shows what the keys of --json mean.
type schemaCommand struct {
	Of string `arg:"" enum:"reckon,check,pick,house" help:"The command whose --json is meant: reckon, check, pick or house."`
}

// Run prints the schema as it is.
func (c *schemaCommand) Run(a *answer) error {
	text, err := schemas.ReadFile("schema/" + c.Of + ".json")
	if err != nil {
		return err
	}
	a.b.Write(text)
	return nil
}
