package report_test

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/report"
)

// houseText prints sheets of a house and returns the document, and its text with white space as single blanks.
func houseText(t *testing.T, s house.Stock, choice report.HouseChoice) ([]byte, string, report.Printed) {
	t.Helper()
	choice.Date = day
	if choice.Day == "" {
		choice.Day = midsummer
	}
	var out bytes.Buffer
	done, err := report.WriteHouse(t.Context(), &out, s, choice)
	require.NoError(t, err)
	return out.Bytes(), regexp.MustCompile(`\s+`).ReplaceAllString(strings.Join(pagesOf(t, out.Bytes()), " "), " "), done
}

// counted is an independent count over the raw rows and takings: how many of each row are where.
type counted struct {
	inHouse, with, overdue, promised, missing, repair, gone, all int
}

func countOver(s house.Stock, wanted func(plan.Reel) bool) (c counted) {
	for reel := range s.Plan.Reels.All() {
		if !wanted(reel) {
			continue
		}
		number := max(1, reel.Quantity)
		c.all += number
		switch reel.State {
		case "missing":
			c.missing += number
		case "repair":
			c.repair += number
		case "written_off":
			c.gone += number
		default:
			c.inHouse += number
			for _, taking := range s.Takings {
				switch {
				case taking.Reel != reel.ID:
				case taking.Plan == "fair":
					c.overdue, c.inHouse = c.overdue+taking.Quantity, c.inHouse-taking.Quantity
				case taking.Plan == "gala":
					c.with, c.inHouse = c.with+taking.Quantity, c.inHouse-taking.Quantity
				default:
					c.promised += taking.Quantity
				}
			}
		}
	}
	return c
}

// figuresOf reads printed counts, a dash for none.
func figuresOf(t *testing.T, texts []string) (all []int) {
	for _, text := range texts {
		n := 0
		if text != "–" {
			var err error
			n, err = strconv.Atoi(text)
			require.NoError(t, err)
		}
		all = append(all, n)
	}
	return all
}

const eight = `(\d+|–) (\d+|–) (\d+|–) (\d+|–) (\d+|–) (\d+|–) (\d+|–) (\d+|–)`

func TestTheStockOnPaperIsThatOfTheRows(t *testing.T) {
	kinds := map[string]plan.CableKindID{"CatA": "cat", "Glass": "glass", "Snake": "snake"}
	row := regexp.MustCompile(`(CatA|Glass|Snake) ([\d.]+) ` + eight)
	for seed := range uint64(4) {
		s := warehouse(t, seed, 60)
		_, text, _ := houseText(t, s, report.HouseChoice{Sheets: []report.HouseSheet{report.HouseStock}})
		sum := make([]int, 8)
		rows := row.FindAllStringSubmatch(text, -1)
		require.NotEmpty(t, rows)
		for _, found := range rows {
			metres, err := strconv.ParseFloat(found[2], 64)
			require.NoError(t, err)
			read := figuresOf(t, found[3:])
			c := countOver(s, func(r plan.Reel) bool { return r.Kind == kinds[found[1]] && r.Length == metres })
			require.Equal(t, []int{c.inHouse, c.with, c.overdue, c.missing, c.repair, c.gone, c.all, c.promised}, read, found[0])
			require.Equal(t, read[6], read[0]+read[1]+read[2]+read[3]+read[4]+read[5], "as printed: %s", found[0])
			for i := range sum {
				sum[i] += read[i]
			}
		}
		total := regexp.MustCompile(`All of the stock ` + eight).FindStringSubmatch(text)
		require.Equal(t, sum, figuresOf(t, total[1:]), "the sum as printed")
		require.Equal(t, countOver(s, func(plan.Reel) bool { return true }).all, sum[6], "the count of the stock")
	}
}

var sumOfShow = regexp.MustCompile(`(Fair|Gala|Tour) (OVERDUE: was due on \S+, 4 days ago\. )?Stock .*? (?:With the show|Promised) (\d+)`)

func TestWhoHasWhatIsWhatWasTaken(t *testing.T) {
	for seed := range uint64(4) {
		s := warehouse(t, 10+seed, 60)
		c := countOver(s, func(plan.Reel) bool { return true })
		_, text, _ := houseText(t, s, report.HouseChoice{Sheets: []report.HouseSheet{report.HouseWho}})
		found := sumOfShow.FindAllStringSubmatch(text, -1)
		require.Len(t, found, 2)
		require.Equal(t, "Fair", found[0][1], "what is overdue comes first")
		require.NotEmpty(t, found[0][2], "and is said to be")
		require.Equal(t, [2]string{fmt.Sprint(c.overdue), fmt.Sprint(c.with)}, [2]string{found[0][3], found[1][3]})
		require.Contains(t, text, fmt.Sprintf("%d cables of the house", c.overdue+c.with))
		require.Equal(t, c.overdue+c.with, inLots(t, text), "every line of it, added up")

		_, text, _ = houseText(t, s, report.HouseChoice{Sheets: []report.HouseSheet{report.HousePromised}})
		found = sumOfShow.FindAllStringSubmatch(text, -1)
		require.Len(t, found, 1)
		require.Equal(t, fmt.Sprint(c.promised), found[0][3])
		require.Equal(t, c.promised, inLots(t, text))
		requireConflicts(t, s, text)

		_, text, _ = houseText(t, s, report.HouseChoice{Sheets: []report.HouseSheet{report.HouseStates}})
		require.Equal(t, c.missing+c.repair+c.gone, absentListed(t, text))
		for _, count := range []int{c.missing, c.repair, c.gone} {
			if count > 0 {
				require.Contains(t, text, fmt.Sprintf(" All %d ", count))
			}
		}
	}
}

// inLots adds up the lines of tables by kind and length.
func inLots(t *testing.T, text string) (sum int) {
	t.Helper()
	for _, found := range regexp.MustCompile(`(?:CatA|Glass|Snake) (?:10|25|50|60\.96) (\d+)`).FindAllStringSubmatch(text, -1) {
		n, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		sum += n
	}
	return sum
}

func absentListed(t *testing.T, text string) (sum int) {
	t.Helper()
	for _, found := range regexp.MustCompile(`[\d.]+ m (?:CatA|Glass|Snake) (\d+) 2027-06-01 21`).FindAllStringSubmatch(text, -1) {
		n, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		sum += n
	}
	return sum
}

func TestCasesOnPaperWeighWhatTheirRowsWeigh(t *testing.T) {
	per100 := map[plan.CableKindID]float64{"cat": 4, "glass": 5}
	for seed := range uint64(4) {
		s := warehouse(t, 20+seed, 40)
		_, text, _ := houseText(t, s, report.HouseChoice{Sheets: []report.HouseSheet{report.HouseCases}})
		pieces, tenthsInAll := 0, 0
		for box := range s.Plan.Cases.All() {
			kg, count, unknown := box.Weight.Value, 0, 0
			for reel := range s.Plan.Reels.All() {
				if reel.Case != box.ID || reel.State != "" {
					continue
				}
				n := max(1, reel.Quantity)
				count += n
				switch each, known := per100[reel.Kind]; {
				case reel.Weight.Set:
					kg += reel.Weight.Value * float64(n)
				case known:
					kg += each * reel.Length / 100 * float64(n)
				default:
					unknown += n
				}
			}
			pieces, tenthsInAll = pieces+count, tenthsInAll+int(math.Round(kg*10))
			kg = math.Round(kg*10) / 10
			said := regexp.MustCompile(box.Name + ` (\d+) \d+ ([\d.]+) (\d+)`).FindStringSubmatch(text)
			require.Equal(t, []string{fmt.Sprint(count), fmt.Sprintf("%.1f", kg), fmt.Sprint(unknown)}, said[1:])
			over := box.Pieces > 0 && (count > box.Pieces || math.Round(kg*10)/10 > box.Most.Value)
			require.Equal(t, over, strings.Contains(text, box.Name+" is over full"))
			if unknown > 0 {
				require.Contains(t, text, fmt.Sprintf("at least %.1f kg; %d without a weight", kg, unknown))
			}
		}
		none := regexp.MustCompile(`No case (\d+) \d+ ([\d.]+)`).FindStringSubmatch(text)
		all := regexp.MustCompile(` All (\d+) \d+ ([\d.]+)`).FindStringSubmatch(text)
		count, err := strconv.Atoi(none[1])
		require.NoError(t, err)
		require.Equal(t, []string{fmt.Sprint(pieces + count), fmt.Sprintf("%.1f", float64(tenthsInAll+tenths(t, none[2]))/10)}, all[1:])
	}
}

func TestAHouseOfNothingAndOneOfFourHundredCables(t *testing.T) {
	empty, text, _ := houseText(t, house.Stock{Plan: plan.New("House stock")}, report.HouseChoice{Sheets: everySheet()})
	requireFramed(t, empty)
	for _, said := range []string{"Nothing is out", "Nothing is missing.", "Nothing is promised", "The house has no stock.", "no case and no cable", "no reel with a tag to label", "no case to label"} {
		require.Contains(t, text, said)
	}
	for _, sheet := range []string{"A4", "A3", "Letter"} {
		document, _, done := houseText(t, warehouse(t, 1, 210), report.HouseChoice{Paper: sheet})
		requireFramed(t, document)
		require.Less(t, done.Pages, 30)
		require.Len(t, done.Entries, len(report.HouseLists()))
	}
}

func everySheet() []report.HouseSheet {
	return append(report.HouseLists(), report.HouseReelLabels, report.HouseCaseLabels)
}

func TestAHouseIsPrintedWhateverThingsAreCalled(t *testing.T) {
	for sentence, name := range map[string]string{
		"in another script":  "مسرح الحقل الأسفل",
		"with pictures":      "🎤🎸👩🏽‍🔧🥁",
		"200 letters on end": strings.Repeat("Abcdefghij", 20),
		"200 letters apart":  strings.TrimSpace(strings.Repeat("Abcd efgh ", 20)),
	} {
		t.Run(sentence, func(t *testing.T) {
			t.Parallel()
			s := warehouse(t, 3, 30)
			for i := range s.Shows {
				s.Shows[i].Name, s.Shows[i].File = name, "/plans/"+name
			}
			var err error
			s.Plan, err = plan.Do(s.Plan, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
				for reel := range e.Now().Reels.All() {
					reel.Tag, reel.Reason, reel.Note = name, name, name
					if reel.TiedInto != "" {
						reel.TiedInto = name
					}
					plan.Put(e, reel)
				}
				for box := range e.Now().Cases.All() {
					box.Name = name
					plan.Put(e, box)
				}
				for kind := range e.Now().CableKinds.All() {
					kind.Name = name
					plan.Put(e, kind)
				}
				return nil
			})
			require.NoError(t, err)
			document, text, done := houseText(t, s, report.HouseChoice{Sheets: everySheet()})
			requireFramed(t, document)
			require.NotRegexp(t, `NaN|%!|-[0-9.]+ m\b`, text)
			require.Len(t, done.Entries, len(everySheet()))
		})
	}
}

func TestAPrintOfTheHouseThatCannotBeIsRefused(t *testing.T) {
	for _, c := range []struct {
		choice report.HouseChoice
		said   string
	}{
		{report.HouseChoice{Date: day, Sheets: []report.HouseSheet{"weather"}}, `sheet "weather" is not known: choose from who, states`},
		{report.HouseChoice{Date: day, Day: "22 June"}, `"22 June" is no day: write year, month and day`},
		{report.HouseChoice{Date: day, Paper: "A0"}, "choose A4, A3 or Letter"},
		{report.HouseChoice{Day: midsummer}, "the date of the print is missing"},
		{report.HouseChoice{Date: day, Labels: report.LabelSheet{Columns: 9, Rows: 1, Width: 60, Height: 30}}, "give fewer columns"},
	} {
		_, err := report.WriteHouse(t.Context(), &bytes.Buffer{}, warehouse(t, 1, 5), c.choice)
		require.ErrorContains(t, err, c.said)
	}
}

// requireConflicts holds what is told in front of the promises to the rows of which Fair has kept some that Tour wants.
func requireConflicts(t *testing.T, s house.Stock, text string) {
	t.Helper()
	wanted := 0
	for reel := range s.Plan.Reels.All() {
		late, wants := 0, 0
		for _, taking := range s.Takings {
			if taking.Reel == reel.ID && taking.Plan == "fair" {
				late += taking.Quantity
			}
			if taking.Reel == reel.ID && taking.Plan == "tour" {
				wants += taking.Quantity
			}
		}
		if late > 0 && wants > 0 && late+wants > max(1, reel.Quantity) {
			wanted++
			if reel.Tag != "" {
				require.Contains(t, text, reel.Tag)
			}
		}
	}
	said := regexp.MustCompile(`Promised twice, or not back in time Tour wants from 2027-06-26 what Fair has overdue since 2027-06-18: (.*?)\. By the day`).FindStringSubmatch(text)
	if wanted == 0 {
		require.Empty(t, said)
		return
	}
	require.NotEmpty(t, said)
	read := len(regexp.MustCompile(`, | and `).Split(said[1], -1))
	if more := regexp.MustCompile(`and (\d+) more`).FindStringSubmatch(said[1]); more != nil {
		n, err := strconv.Atoi(more[1])
		require.NoError(t, err)
		read += n - 1
	}
	require.Equal(t, wanted, read, said[1])
}
