package main

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/signal"
	"slices"
	"strings"
	"time"

	"stageloom/model/cabling"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/supply"
)

// pickCommand picks cables for the links of a plan.
type pickCommand struct {
	Plan filled `arg:"" help:"The plan file to pick for."`

	Links          list   `placeholder:"NAME" help:"Pick for these links alone, by their names with commas between; cables on others stay there."`
	OnTheDay       bool   `help:"Change as little as can be of what is picked already: changes count before joins."`
	TakeApart      bool   `help:"Let links that are laid, joined or tested be taken apart where that serves a link which else stays unserved; without it they are left as they lie."`
	Suspect        bool   `help:"Take reels marked suspect as well; faulty ones are never taken."`
	Wanted         list   `placeholder:"KIND" help:"Take these kinds of cable alone, by the plan's slugs."`
	Barred         list   `placeholder:"KIND" help:"Take none of these kinds."`
	OwnKind        bool   `help:"Let a link that wants a kind have that one alone."`
	MaxJoins       int    `default:"0" placeholder:"N" help:"Most joins of a link that says nothing itself; 3 unless stated."`
	DifferentKinds bool   `help:"Take different kinds of cable for main and backup."`
	House          filled `placeholder:"FOLDER" help:"The folder of a house's stock, stock.stageloom-stock in it: what of it is free for the plan is picked as --from says, and counts before a hire."`
	From           string `placeholder:"STOCK" help:"Pick from the stock of the show, of the house, or of both; both unless stated, with --house."`
	HoldBack       bool   `help:"Hold back at each position one cable able to replace its longest main run."`
	Apply          bool   `help:"Lay what is proposed in a copy of the plan, which -o names."`
	Output         filled `short:"o" placeholder:"PLAN" help:"Where the plan with the picks goes; the plan's own name writes it over."`
	JSON           bool   `name:"json" help:"Print for other programs; \"loomsheet schema pick\" tells the keys."`
}

// Help follows the flags in --help.
func (pickCommand) Help() string {
	return "Chooses reels of the stock for each link: first that as much as possible is served, by priority, then with the wanted margin, with few joins, " +
		"few changes and few metres coiled. What is laid, joined or tested is left as it lies, but for faulty reels; what would touch it all the same is named. Exits with 0 when every link asked for is served, 1 when one is not, and 2 when a file cannot be used."
}

// Run picks, tells what would change, and writes the copy that was asked for.
func (c *pickCommand) Run(a *answer) error {
	path := string(c.Plan)
	p, err := openPlan(a, path)
	if err != nil {
		return err
	}
	if c.Apply != (c.Output != "") {
		return errors.New("--apply and -o FILE go together: the one lays the cables, the other says in which file")
	}
	stock, from, err := c.source()
	if err != nil {
		return err
	}
	request, err := c.request(p, stock)
	if err != nil {
		return err
	}
	interrupted, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	result, err := supply.Pick(interrupted, p, stock, from, request, nil)
	if err != nil {
		return err
	}
	if c.Apply {
		if err := apply(path, string(c.Output), p, result.Edit(stock)); err != nil {
			return err
		}
	}
	if len(result.Proposal.Unserved) > 0 {
		a.worsen(stopped)
	}
	said := picked{path: path, copy: string(c.Output), plan: result.Plan, proposal: result.Proposal, house: c.House != "", from: result}
	if c.JSON {
		return a.json(said.keys())
	}
	said.print(&a.page)
	return nil
}

// source reads the house's stock, where there is one, and which stock is picked from.
func (c *pickCommand) source() (stock house.Stock, from supply.Source, err error) {
	from = supply.Source(strings.ToLower(c.From))
	switch {
	case c.House == "" && c.From == "":
		return stock, supply.Show, nil
	case c.House == "":
		return stock, from, errors.New("--from goes with --house FOLDER, which says where the house's stock lies")
	case c.From == "":
		from = supply.Both
	case !slices.Contains(supply.Sources(), from):
		return stock, from, fmt.Errorf("--from %s: write show, house or both", plan.Clipped(c.From))
	}
	if stock, err = house.Open(string(c.House)).Stock(); err == nil && stock.Plan.Reels.Len() == 0 {
		err = fmt.Errorf("--house %s: there is no stock of a house; name the folder in which stock.stageloom-stock lies", c.House)
	}
	return stock, from, err
}

// request turns the flags into what is asked of the plan; kinds may be the house's.
func (c *pickCommand) request(p *plan.Plan, stock house.Stock) (cabling.Request, error) {
	request := cabling.Request{
		OnTheDay: c.OnTheDay, TakeApart: c.TakeApart, Suspect: c.Suspect, OwnKind: c.OwnKind, MaxJoins: c.MaxJoins, DifferentKinds: c.DifferentKinds, HoldBack: c.HoldBack,
	}
	if c.MaxJoins < 0 || c.MaxJoins > cabling.MostJoins {
		return request, fmt.Errorf("--max-joins %d: write a number from 1 to %d", c.MaxJoins, cabling.MostJoins)
	}
	for _, name := range c.Links {
		id, err := linkNamed(p, strings.TrimSpace(string(name)))
		if err != nil {
			return request, err
		}
		request.Links = append(request.Links, id)
	}
	for _, flag := range []struct {
		name  string
		given list
		into  *[]plan.CableKindID
	}{{"--wanted", c.Wanted, &request.Wanted}, {"--barred", c.Barred, &request.Barred}} {
		for _, slug := range flag.given {
			id := plan.CableKindID(strings.TrimSpace(string(slug)))
			if !p.CableKinds.Has(plan.Key(id)) && (stock.Plan == nil || !stock.Plan.CableKinds.Has(plan.Key(id))) {
				return request, fmt.Errorf("%s %s: the plan holds no such kind of cable; it holds %s", flag.name, id, kindSlugs(p))
			}
			*flag.into = append(*flag.into, id)
		}
	}
	return request, nil
}

func linkNamed(p *plan.Plan, name string) (plan.LinkID, error) {
	var found []plan.LinkID
	for link := range p.Links.All() {
		if link.Name == name || string(link.ID) == name {
			found = append(found, link.ID)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return "", fmt.Errorf("--links: the plan has no link %s; loomsheet check --links lists them", name)
	}
	return "", fmt.Errorf("--links: %d links are called %s; name the one you mean by its id, such as %s", len(found), name, found[0])
}

func kindSlugs(p *plan.Plan) string {
	var slugs []string
	for kind := range p.CableKinds.All() {
		slugs = append(slugs, string(kind.ID))
	}
	if len(slugs) == 0 {
		return "none"
	}
	return strings.Join(slugs, ", ")
}

// apply lays what is proposed and writes the plan: over itself, if nothing else has changed it, or to a file that is not there.
func apply(path, target string, p *plan.Plan, edit func(*plan.Edit) error) error {
	next, err := plan.Do(p, plan.NewIDSource(rand.Uint64(), rand.Uint64()), edit)
	if err != nil {
		return err
	}
	lock, err := planfile.Acquire(target, planfile.ThisProcess(time.Now()))
	if err != nil {
		return err
	}
	stamp := planfile.Stamp{}
	if same, err := sameFile(path, target); err != nil {
		return errors.Join(err, lock.Release())
	} else if same {
		now, was, err := planfile.Open(path)
		if err != nil {
			return errors.Join(err, lock.Release())
		}
		if !plan.Equal(now, p) {
			return errors.Join(fmt.Errorf("%s has changed meanwhile; pick again", path), lock.Release())
		}
		stamp = was
	} else {
		next = copyOf(next)
	}
	_, err = planfile.Save(target, next, stamp, nil)
	var there *planfile.Overwrite
	if errors.As(err, &there) {
		err = fmt.Errorf("%s is there already, and pick writes over no other plan; choose another name for the copy", target)
	}
	return errors.Join(err, lock.Release())
}

// sameFile reports whether two names are one file; a target that is not there is none.
func sameFile(path, target string) (bool, error) {
	a, err := os.Stat(path)
	if err != nil {
		return false, err
	}
	b, err := os.Stat(target)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	return err == nil && os.SameFile(a, b), err
}
