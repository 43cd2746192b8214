package standards_test

import (
	"fmt"

	"stageloom/model/standards"
)

func ExampleReckon() {
	temperatureC := 20.0
	budget, err := standards.Reckon(standards.Question{
		Chain:        "cat6a-own:17.6 70 + cat5e 45",
		TemperatureC: &temperatureC,
		Transport:    "aes50",
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, step := range budget.Steps {
		fmt.Printf("%-50s %5.1f dB\n", step.Name, step.TotalDB)
	}
	fmt.Printf("%s: %+.1f dB, %s\n", budget.Rule.Name, budget.MarginDB, budget.Grade)
	// Output:
	// Cat 6A at 17.6 dB/100 m, stranded 24 AWG, screened  12.3 dB
	// Cat 6A hardware                                     12.5 dB
	// Cat 5e hardware                                     12.9 dB
	// Cat 5e, stranded 24 AWG, screened                   24.8 dB
	// field rule for AES50, 25 dB at 100 MHz: +0.2 dB, tight
}

func ExampleParseChain() {
	_, err := standards.ParseChain("cat6a:19.2 70 + cat5e 45")
	fmt.Println(err)
	// Output:
	// chain, cable 1 at column 1, "cat6a:19.2 70": a figure needs the own kind; write cat6a-own:19.2
}
