package cabling

import (
	"cmp"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/picking"
	"stageloom/model/plan"
)

// MostJoins is the most joins that a link without kept cables can be picked: as many as the optimiser joins reels.
const MostJoins = picking.MaxReels - 1

// question is a survey put as a problem to the optimiser. Links of the problem are those runs that picking can do anything
// for: runIndex says which.
type question struct {
	survey   *survey
	problem  picking.Problem
	runIndex []int
	classes  map[classKey]int
	// ends are what each class stands for.
	ends []class
}

// classKey tells apart the ends of cables as they lie on a run: the kind, how its drum lies, whether joints lose anything
// there, and in which gap of which kept chain.
type classKey struct {
	kind   plan.CableKindID
	turned bool
	medium string
	chain  string
	gap    int
}

// class is the run that a class was met on first, and its kind and gap there.
type class struct {
	classKey
	run *run
}

func (s *survey) question() *question {
	z := &question{survey: s, classes: map[classKey]int{}}
	z.problem.Nodes = s.request.Nodes
	if s.request.OnTheDay {
		z.problem.Order = picking.OnTheDay
	}
	kinds := map[plan.CableKindID]int{}
	for i := range s.lines {
		l := &s.lines[i]
		if _, known := kinds[l.kind]; !known {
			kinds[l.kind] = len(kinds)
		}
		z.problem.Lines = append(z.problem.Lines, picking.Line{
			Kind: kinds[l.kind], Length: millimetres(l.length), Count: len(l.free), Case: s.caseOf(l), Shelf: l.shelf,
		})
	}
	place := map[plan.LinkID]int{}
	for i, r := range s.runs {
		if r.settled() {
			continue
		}
		place[r.link.ID] = len(z.problem.Links)
		z.problem.Links = append(z.problem.Links, z.link(r))
		z.runIndex = append(z.runIndex, i)
	}
	z.problem.Joints = z.joints()
	z.pairs(place)
	z.wholes(place)
	if s.request.HoldBack {
		for _, spare := range s.spares() {
			z.problem.Spares = append(z.problem.Spares, picking.Spare{Lines: spare.lines})
		}
	}
	return z
}

// caseOf numbers the case that all free reels of a line live in; 0 where there are several or none.
func (s *survey) caseOf(l *line) int {
	var box plan.CaseID
	for i, id := range l.free {
		reel, _ := s.plan.Reels.Get(plan.Key(id))
		if i > 0 && reel.Case != box {
			return 0
		}
		box = reel.Case
	}
	if box == "" {
		return 0
	}
	if _, known := s.cases[box]; !known {
		s.cases[box] = len(s.cases) + 1
	}
	return s.cases[box]
}

// settled reports whether there is nothing to pick for a run: nobody gave its metres, its kept cables reach and fit, do not carry
// it, or lose too much already.
func (r *run) settled() bool {
	return r.wanting() || !r.sound || len(r.kept) > 0 && r.need <= 0 && r.whole() || r.fixed.Graded && r.left() <= 0
}

// wanting reports whether nobody gave the metres of a run.
func (r *run) wanting() bool { return r.survey.wanting[r.link.ID] }

// left is the limit less the loss of what is kept, without joints, and of what else its line has, in thousandths of a dB.
func (r *run) left() int { return r.limit - r.rest - r.keptLoss() }

// keptLoss is the loss of what is kept, without joints, in thousandths of a dB.
func (r *run) keptLoss() (loss int) {
	for i := range r.fixed.Parts {
		if part := &r.fixed.Parts[i]; !part.Assumed && isCable(part) {
			loss += up(part.LossDB)
		}
	}
	return loss
}

// link puts one run.
func (z *question) link(r *run) picking.Link {
	link := picking.Link{
		Need: max(1, r.need), MaxJoins: r.most, Attached: len(r.kept) > 0, Priority: max(1, r.link.Priority), Before: r.before(),
		Lies: r.link.Lies() && !z.survey.lies[r.link.ID],
	}
	if !link.Attached {
		link.MaxJoins--
	}
	link.Limit = []int{0} // none
	if r.fixed.Graded {
		link.Limit, link.Wanted = []int{r.left()}, r.wanted
	}
	losses, gaps := z.survey.lossesFor(r), r.gaps()
	for i := range z.survey.lines {
		l := &z.survey.lines[i]
		if losses[i] < 0 || !r.allows(z.survey.kinds[l.kind]) {
			continue
		}
		for _, gap := range gaps {
			link.Usable = append(link.Usable, picking.Usable{
				Line: i, Loss: []int{losses[i]}, Class: z.classOf(r, l.kind, gap),
				First: r.first(l.kind, gap), Last: r.last(l.kind, gap),
			})
		}
	}
	return link
}

// allows reports whether a kind may be picked for a run: it carries what the run carries, and nobody asked for others. See
// [budget.Meant].
func (r *run) allows(kind plan.CableKind) bool {
	graded := r.fixed.Graded && !r.survey.request.OwnKind
	if !budget.Meant(r.link, kind.ID, graded) || slices.Contains(r.apart, kind.ID) {
		return false
	}
	return r.carries(kind)
}

// before counts by line the reels that a run had and that may be picked.
func (r *run) before() []picking.Use {
	count := map[int]int{}
	for _, segment := range r.loose {
		if at, is := r.survey.lineOfSegment(segment); is {
			count[at]++
		}
	}
	var uses []picking.Use
	for at, n := range count {
		uses = append(uses, picking.Use{Line: at, Count: n})
	}
	slices.SortFunc(uses, func(a, b picking.Use) int { return cmp.Compare(a.Line, b.Line) })
	return uses
}

// pairs says which links must have different kinds, where that was asked for.
func (z *question) pairs(place map[plan.LinkID]int) {
	if !z.survey.request.DifferentKinds {
		return
	}
	for _, r := range z.survey.runs {
		main, picked := place[r.link.ID]
		backup, both := place[r.link.Partner]
		if picked && both && r.link.Partner != "" && (r.link.Role == "main" || r.link.Role == "" && main < backup) {
			z.problem.Apart = append(z.problem.Apart, picking.Pair{Main: main, Backup: backup})
		}
	}
}

func (z *question) classOf(r *run, kind plan.CableKindID, gap int) int {
	key := classKey{kind: kind, turned: r.turned, medium: r.medium(), chain: r.chainKey(), gap: gap}
	at, known := z.classes[key]
	if !known {
		at = len(z.classes)
		z.classes[key] = at
		z.ends = append(z.ends, class{key, r})
	}
	return at
}

// joints fills the table of joints between all classes; what lies on different runs never meets.
func (z *question) joints() [][]picking.Joint {
	table := make([][]picking.Joint, len(z.ends))
	for i, a := range z.ends {
		table[i] = make([]picking.Joint, len(z.ends))
		for j, b := range z.ends {
			same := a.turned == b.turned && a.medium == b.medium && a.chain == b.chain
			if !same || a.gap > b.gap {
				continue
			}
			if loss, fits := a.run.across(a.kind, b.kind, a.gap, b.gap); fits {
				table[i][j] = picking.Joint{Fits: true, Loss: []int{loss}}
			}
		}
	}
	return table
}
