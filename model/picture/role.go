package picture

// Role says what a mark is; each medium has a table role → colour, width and dash. A test demands every role
// in both tables.
type Role string

// The roles of the plan's picture.
const (
	RoleGround     Role = "ground"
	RoleGridFine   Role = "grid-fine"
	RoleGridCoarse Role = "grid-coarse"

	RoleAreaStage    Role = "area-stage"
	RoleAreaBuilding Role = "area-building"
	RoleAreaRoad     Role = "area-road"
	RoleAreaWater    Role = "area-water"
	RoleAreaCrowd    Role = "area-crowd"
	RoleAreaWalkway  Role = "area-walkway"
	RoleAreaExit     Role = "area-exit"
	RoleAreaFireLane Role = "area-fire-lane"
	RoleAreaEdge     Role = "area-edge"
	RoleAreaText     Role = "area-text"

	RolePositionEdge Role = "position-edge"
	RolePositionText Role = "position-text"
	RoleHeadFill     Role = "head-fill"
	RoleHeadText     Role = "head-text"
	RoleRowRule      Role = "row-rule"

	RoleLinkCasing   Role = "link-casing"
	RoleLinkHalo     Role = "link-halo"
	RoleLinkAmple    Role = "link-ample"
	RoleLinkEnough   Role = "link-enough"
	RoleLinkTight    Role = "link-tight"
	RoleLinkOver     Role = "link-over"
	RoleLinkUncabled Role = "link-uncabled"
	RoleLinkUngraded Role = "link-ungraded"
	RoleLinkMissing  Role = "link-missing"
	RoleLinkDone     Role = "link-done"

	RoleLoomRoute Role = "loom-route"
	RoleLoomDrop  Role = "loom-drop"
	RoleLoomText  Role = "loom-text"

	RoleJoinAmple    Role = "join-ample"
	RoleJoinEnough   Role = "join-enough"
	RoleJoinTight    Role = "join-tight"
	RoleJoinOver     Role = "join-over"
	RoleJoinUngraded Role = "join-ungraded"

	RoleLabelFill     Role = "label-fill"
	RoleLabelText     Role = "label-text"
	RoleLabelAmple    Role = "label-ample"
	RoleLabelEnough   Role = "label-enough"
	RoleLabelTight    Role = "label-tight"
	RoleLabelOver     Role = "label-over"
	RoleLabelUncabled Role = "label-uncabled"
	RoleLabelUngraded Role = "label-ungraded"

	RoleBadgeAmple    Role = "badge-ample"
	RoleBadgeEnough   Role = "badge-enough"
	RoleBadgeTight    Role = "badge-tight"
	RoleBadgeOver     Role = "badge-over"
	RoleBadgeUncabled Role = "badge-uncabled"

	RoleTapeRed    Role = "tape-red"
	RoleTapeBlue   Role = "tape-blue"
	RoleTapeGreen  Role = "tape-green"
	RoleTapeYellow Role = "tape-yellow"
	RoleTapeWhite  Role = "tape-white"
	RoleTapeBlack  Role = "tape-black"
	RoleTapeOrange Role = "tape-orange"
	RoleTapeBrown  Role = "tape-brown"
	RoleTapeViolet Role = "tape-violet"
	RoleTapeGrey   Role = "tape-grey"
	RoleTapePink   Role = "tape-pink"
	RoleTapeEdge   Role = "tape-edge"
	RoleTapeText   Role = "tape-text"

	RoleDeviceFill     Role = "device-fill"
	RoleDeviceEdge     Role = "device-edge"
	RoleDeviceText     Role = "device-text"
	RoleDeviceKindText Role = "device-kind-text"
	RoleDeviceDot      Role = "device-dot"
	RolePictogram      Role = "pictogram"
	RoleLeader         Role = "leader"
	RolePortUsed       Role = "port-used"
	RolePortFree       Role = "port-free"

	RoleSelected  Role = "selected"
	RoleFocus     Role = "focus"
	RoleHandle    Role = "handle"
	RoleBandFill  Role = "band-fill"
	RoleBandEdge  Role = "band-edge"
	RoleScaleBar  Role = "scale-bar"
	RoleScaleText Role = "scale-text"
)

// Roles lists every role.
func Roles() []Role {
	return []Role{
		RoleGround, RoleGridFine, RoleGridCoarse,
		RoleAreaStage, RoleAreaBuilding, RoleAreaRoad, RoleAreaWater, RoleAreaCrowd, RoleAreaWalkway, RoleAreaExit,
		RoleAreaFireLane, RoleAreaEdge, RoleAreaText, RolePositionEdge, RolePositionText,
		RoleHeadFill, RoleHeadText, RoleRowRule, RolePictogram,
		RoleLinkCasing, RoleLinkHalo, RoleLinkAmple, RoleLinkEnough, RoleLinkTight, RoleLinkOver, RoleLinkUncabled,
		RoleLinkUngraded, RoleLinkMissing, RoleLinkDone, RoleLoomRoute, RoleLoomDrop, RoleLoomText,
		RoleJoinAmple, RoleJoinEnough, RoleJoinTight, RoleJoinOver, RoleJoinUngraded,
		RoleLabelFill, RoleLabelText, RoleLabelAmple, RoleLabelEnough, RoleLabelTight, RoleLabelOver,
		RoleLabelUncabled, RoleLabelUngraded,
		RoleBadgeAmple, RoleBadgeEnough, RoleBadgeTight, RoleBadgeOver, RoleBadgeUncabled,
		RoleTapeRed, RoleTapeBlue, RoleTapeGreen, RoleTapeYellow, RoleTapeWhite, RoleTapeBlack, RoleTapeOrange,
		RoleTapeBrown, RoleTapeViolet, RoleTapeGrey, RoleTapePink, RoleTapeEdge, RoleTapeText,
		RoleDeviceFill, RoleDeviceEdge, RoleDeviceText, RoleDeviceKindText, RoleDeviceDot, RoleLeader,
		RolePortUsed, RolePortFree, RoleSelected, RoleFocus, RoleHandle, RoleBandFill, RoleBandEdge, RoleScaleBar, RoleScaleText,
	}
}

// graded holds the roles of one grade.
type graded struct{ link, join, label, badge Role }

var gradeRoles = map[string]graded{
	"ample":  {RoleLinkAmple, RoleJoinAmple, RoleLabelAmple, RoleBadgeAmple},
	"enough": {RoleLinkEnough, RoleJoinEnough, RoleLabelEnough, RoleBadgeEnough},
	"tight":  {RoleLinkTight, RoleJoinTight, RoleLabelTight, RoleBadgeTight},
	"over":   {RoleLinkOver, RoleJoinOver, RoleLabelOver, RoleBadgeOver},
	// What is not so yet bears no grade's colour.
	"to be tested": {RoleLinkEnough, RoleJoinEnough, RoleLabelEnough, RoleBadgeEnough},
	"faulty":       {RoleLinkOver, RoleJoinOver, RoleLabelOver, RoleBadgeOver},
	"to lay":       {RoleLinkUngraded, RoleJoinUngraded, RoleLabelUncabled, RoleBadgeUncabled},
	"uncabled":     {RoleLinkUncabled, RoleJoinUngraded, RoleLabelUncabled, RoleBadgeUncabled},
}

func rolesOf(grade string) graded {
	if roles, found := gradeRoles[grade]; found {
		return roles
	}
	return graded{RoleLinkUngraded, RoleJoinUngraded, RoleLabelUngraded, ""}
}

// LinkRole returns the role of a link's line by its grade; "" is a link without grade.
func LinkRole(grade string) Role { return rolesOf(grade).link }

// BadgeRole returns the role of a grade's badge; blank for no grade.
func BadgeRole(grade string) Role { return rolesOf(grade).badge }

// AreaRole returns the role of an area's tone by its use; blank for a use that is not known.
func AreaRole(use string) Role { return areaRoles[use] }

var areaRoles = map[string]Role{
	"stage": RoleAreaStage, "building": RoleAreaBuilding, "road": RoleAreaRoad, "water": RoleAreaWater,
	"crowd": RoleAreaCrowd, "walkway": RoleAreaWalkway, "exit": RoleAreaExit, "fire-lane": RoleAreaFireLane,
}
