package main

import (
	"slices"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/report"
)

// The keys of house --json, as schema/house.json tells them.
type (
	houseKeys struct {
		Version   int           `json:"loomsheet"`
		Folder    string        `json:"folder"`
		Day       string        `json:"day"`
		Who       *[]holderKeys `json:"who,omitempty"`
		States    *[]absentKeys `json:"states,omitempty"`
		Promised  *[]holderKeys `json:"promised,omitempty"`
		Conflicts *[]string     `json:"conflicts,omitempty"`
		Stock     *[]standKeys  `json:"stock,omitempty"`
		Sum       *standSum     `json:"stock_sum,omitempty"`
		Cases     *[]caseKeys   `json:"cases,omitempty"`
		Trucks    *[]truckKeys  `json:"trucks,omitempty"`
	}
	holderKeys struct {
		Show   string    `json:"show"`
		File   string    `json:"file,omitempty"`
		From   string    `json:"from,omitempty"`
		Until  string    `json:"until,omitempty"`
		Since  string    `json:"since,omitempty"`
		Place  string    `json:"place"`
		Cables int       `json:"cables"`
		Lots   []lotKeys `json:"lots"`
	}
	lotKeys struct {
		Whole  string   `json:"tied_into,omitempty"`
		Kind   string   `json:"kind"`
		Length number   `json:"length_m"`
		Count  int      `json:"count"`
		Tags   []string `json:"tags"`
	}
	absentKeys struct {
		Place  string `json:"place"`
		Tag    string `json:"tag,omitempty"`
		Kind   string `json:"kind"`
		Length number `json:"length_m"`
		Count  int    `json:"count"`
		Since  string `json:"since,omitempty"`
		Days   *int   `json:"days,omitempty"`
		Known  string `json:"known,omitempty"`
	}
	standSum struct {
		InHouse    int `json:"in_the_house"`
		WithShows  int `json:"with_shows"`
		Overdue    int `json:"overdue"`
		Missing    int `json:"missing"`
		InRepair   int `json:"in_repair"`
		WrittenOff int `json:"written_off"`
		All        int `json:"all"`
		Promised   int `json:"promised"`
	}
	standKeys struct {
		Kind   string `json:"kind"`
		Length number `json:"length_m"`
		standSum
	}
	caseKeys struct {
		Case    string    `json:"case"`
		Cables  int       `json:"cables"`
		InHouse *int      `json:"in_the_house,omitempty"`
		Mass    number    `json:"mass_kg"`
		Unknown int       `json:"without_a_weight"`
		Takes   *int      `json:"takes_pieces,omitempty"`
		Most    *number   `json:"takes_kg,omitempty"`
		Over    string    `json:"over,omitempty"`
		Lots    []lotKeys `json:"lots"`
	}
	truckKeys struct {
		Show    string     `json:"show"`
		Place   string     `json:"place"`
		From    string     `json:"from,omitempty"`
		Until   string     `json:"until,omitempty"`
		Cables  int        `json:"cables"`
		Mass    number     `json:"mass_kg"`
		Unknown int        `json:"without_a_weight"`
		Cases   []caseKeys `json:"cases"`
	}
)

// houseKeysOf are the keys of the lists that are asked for.
func houseKeysOf(folder string, s house.Stock, day string, lists []report.HouseSheet) houseKeys {
	keys := houseKeys{Version: 1, Folder: folder, Day: day}
	asked := func(list report.HouseSheet) bool { return slices.Contains(lists, list) }
	if asked(report.HouseWho) {
		keys.Who = holdersKeys(s, stocklist.Who(s, day))
	}
	if asked(report.HouseStates) {
		keys.States = absentsKeys(s, day)
	}
	if asked(report.HousePromised) {
		conflicts := append([]string{}, stocklist.Conflicts(s, day)...)
		keys.Promised, keys.Conflicts = holdersKeys(s, stocklist.Promised(s, day)), &conflicts
	}
	if asked(report.HouseStock) {
		rows, sum := stocklist.Standings(s, day)
		stock, all := []standKeys{}, sumKeys(sum)
		for _, row := range rows {
			stock = append(stock, standKeys{row.Kind, number(row.Length), sumKeys(row)})
		}
		keys.Stock, keys.Sum = &stock, &all
	}
	if asked(report.HouseCases) {
		loads, here := stocklist.InCases(s, day)
		cases := loadsKeys(s.Plan, loads)
		for i, load := range loads {
			count := here[load.Case.ID]
			cases[i].InHouse = &count
		}
		keys.Cases = &cases
	}
	if asked(report.HouseTruck) {
		keys.Trucks = trucksKeys(s, day)
	}
	return keys
}

func holdersKeys(s house.Stock, holders []stocklist.Holder) *[]holderKeys {
	keys := []holderKeys{}
	for _, h := range holders {
		keys = append(keys, holderKeys{
			h.Name(), h.Show.File, h.Show.From, h.Show.Until, h.Since, string(h.Place),
			stocklist.Count(h.Pieces), lotsKeys(s.Plan, h.Pieces),
		})
	}
	return &keys
}

func lotsKeys(p *plan.Plan, pieces []stocklist.Pieces) []lotKeys {
	keys := []lotKeys{}
	for _, lot := range stocklist.Lots(p, pieces) {
		keys = append(keys, lotKeys{lot.Whole, lot.Kind, number(lot.Length), lot.Count, append([]string{}, lot.Tags...)})
	}
	return keys
}

func absentsKeys(s house.Stock, day string) *[]absentKeys {
	keys := []absentKeys{}
	for _, one := range stocklist.Absents(s, day) {
		key := absentKeys{
			Place: string(one.Place), Tag: one.Reel.Tag, Kind: stocklist.KindName(s.Plan, one.Reel.Kind), Length: number(one.Reel.Length),
			Count: one.Count, Since: one.Since, Known: one.Words(),
		}
		if days, known := stocklist.DaysBetween(one.Since, day); known {
			key.Days = &days
		}
		keys = append(keys, key)
	}
	return &keys
}

func sumKeys(s stocklist.Standing) standSum {
	return standSum{s.InHouse, s.WithShows, s.Overdue, s.Missing, s.InRepair, s.WrittenOff, s.All(), s.Promised}
}

func loadsKeys(p *plan.Plan, loads []stocklist.Load) []caseKeys {
	keys := []caseKeys{}
	for _, load := range loads {
		key := caseKeys{
			Case: load.Name(), Cables: load.Cables, Mass: number(load.Mass.Tenths()), Unknown: load.Mass.Unknown,
			Over: load.Over(), Lots: lotsKeys(p, load.Pieces),
		}
		if takes := load.Case.Pieces; takes > 0 {
			key.Takes = &takes
		}
		if most := number(load.Case.Most.Value); load.Case.Most.Set {
			key.Most = &most
		}
		keys = append(keys, key)
	}
	return keys
}

func trucksKeys(s house.Stock, day string) *[]truckKeys {
	keys := []truckKeys{}
	for _, truck := range stocklist.Trucks(s, day) {
		cables, mass := stocklist.Total(truck.Loads)
		keys = append(keys, truckKeys{
			truck.Name(), string(truck.Place), truck.Show.From, truck.Show.Until, cables, number(mass.Tenths()), mass.Unknown,
			loadsKeys(s.Plan, truck.Loads),
		})
	}
	return &keys
}
