package figure

// plan is a way of building an animal on the drawing board.
type plan struct {
	name string // as said in descriptions
	view string // "above", "the side"
	draw func(*sketch)
}

// The plans. A pointer names one, so that two drawings can be known to be of
// one build.
var (
	planNymph          = &plan{"six-legged nymph or larva", "above", nymph}
	planStonefly       = &plan{"stonefly nymph", "above", stonefly}
	planMayfly         = &plan{"mayfly nymph", "above", mayfly}
	planDragonfly      = &plan{"dragonfly nymph", "above", dragonfly}
	planDamselfly      = &plan{"damselfly nymph", "above", damselfly}
	planHellgrammite   = &plan{"larva with jaws and side arms", "above", hellgrammite}
	planBeetleParallel = &plan{"beetle with parallel sides", "above", parallelSided}
	planBeetleDotted   = &plan{"beetle pointed at both ends", "above", dotted}
	planBeetleWaisted  = &plan{"beetle with a waist", "above", waisted}
	planBug            = &plan{"water bug", "above", bug}
	planBackswimmer    = &plan{"boat-shaped bug", "above, and from the side as it hangs", hangingBug}
	planBugDomed       = &plan{"domed bug", "the side, belly up", pygmy}
	planTiger          = &plan{"hunting larva", "above", tiger}
	planArmoured       = &plan{"larva of hard rings", "above", armoured}
	planScavenger      = &plan{"plump larva", "above", scavenger}
	planPenny          = &plan{"saucer-like larva", "above and beneath", penny}
	planCaddis         = &plan{"caddisfly larva without a case", "the side", caddis}
	planRoundworm      = &plan{"round worm", "above", roundworm}
	planSeedShrimp     = &plan{"seed shrimp", "the side", seedShrimp}
	planSpringtail     = &plan{"springtail", "the side", springtail}
	planGrub           = &plan{"soft larva with six legs", "the side", grub}
	planCased          = &plan{"larva in a case", "the side", cased}
	planBeetle         = &plan{"beetle", "above", smoothOval}
	planMaggot         = &plan{"legless larva", "the side", flyLarva}
	planBeaded         = &plan{"larva of beads", "above", beaded}
	planCrayfish       = &plan{"crayfish-like animal", "above", crayfish}
	planShrimp         = &plan{"shrimp-like animal", "the side", shrimp}
	planScud           = &plan{"side-swimmer", "the side", scud}
	planSowbug         = &plan{"flat animal with many legs", "above", sowbug}
	planMite           = &plan{"mite-like animal", "above", mite}
	planSpider         = &plan{"spider-like animal", "above", spider}
	planFlea           = &plan{"water-flea-like animal", "the side", flea}
	planSnail          = &plan{"snail", "the side of its opening", snail}
	planLimpet         = &plan{"cap-shaped shell", "the side, and from above", limpet}
	planClam           = &plan{"shell of two halves", "the side", clam}
	planLeech          = &plan{"leech-like animal", "above", leech}
	planCopepod        = &plan{"copepod", "above", copepod}
	planFlatworm       = &plan{"flat worm", "above", flatworm}
	planWire           = &plan{"thread-thin worm", "above", wire}
	planWorm           = &plan{"worm", "above", worm}
	planFish           = &plan{"fish", "the side", fish}
	planTadpole        = &plan{"tadpole", "the side", tadpole}
	planPupa           = &plan{"resting stage", "the side", pupa}
	planRemains        = &plan{"no living animal", "the side", remains}
	planSponge         = &plan{"crust on a stone", "the side", spongeAlone}
	planMossAnimals    = &plan{"twigs on a stone", "the side", mossAnimalsAlone}
	planHydra          = &plan{"thread with a crown", "the side", hydra}
	planEel            = &plan{"eel-like animal", "the side", eel}
	planCrab           = &plan{"crab", "above", crab}
	planSalamander     = &plan{"salamander", "above", salamander}
)

// planOf chooses the plan by what is known and by the build that a catalog names;
// nil where too little is known to draw a body that does not mislead.
func planOf(t Traits, build string) *plan {
	if p := builds[build]; p != nil {
		return p(t)
	}
	switch {
	case t.is("backbone", "yes"):
		return backbonePlan(t)
	case t.has("living") && !t.is("living", "yes"):
		return planRemains
	case t.has("pupa"):
		return planPupa
	case t.has("shell"):
		return shellPlan(t)
	case t.is("case", "carried"):
		return planCased
	}
	switch t["legs"] {
	case "6":
		return sixLegged(t)
	case "8":
		if t.is("rings", "joined", "sections") || t.is("leg-place", "front") {
			return planSpider
		}
		return planMite
	case "10":
		if t.is("outline", "disc") {
			return planCrab
		}
		if t.is("flat", "tall") && !t.is("forelegs", "pincers") {
			return planShrimp
		}
		return planCrayfish
	case "14":
		if t.is("flat", "tall", "round") || t.is("upside", "side") {
			return planScud
		}
		return planSowbug
	case "0":
		return legless(t)
	}
	return nil
}

func backbonePlan(t Traits) *plan {
	switch t["limbs"] {
	case "four":
		return planSalamander
	case "fins":
		return planFish
	}
	if t.is("neck", "gills") {
		return planSalamander
	}
	if t.is("limbs", "none") && t.is("outline", "long", "thread") {
		return planEel
	}
	return planTadpole
}

func shellPlan(t Traits) *plan {
	switch t["shell"] {
	case "two":
		return planClam
	case "cap":
		return planLimpet
	}
	return planSnail
}

func sixLegged(t Traits) *plan {
	switch {
	case t.is("mouth", "beak") && !t.has("gills"), t.is("wings", "crossed"):
		return planBug
	case t.is("wings", "hard"):
		return planBeetle
	case t.is("shield", "saucer"):
		return planNymph
	case t.has("prolegs"), t.is("hooks", "two", "tiny", "ring"), t.has("humps"), t.is("posture", "curled", "bent"):
		return planGrub
	}
	return planNymph
}

func legless(t Traits) *plan {
	switch {
	case t.is("suckers", "ends"):
		return planLeech
	case t.is("rings", "lobes"):
		return planBeaded
	case t.is("head", "capsule", "sunk"), t.has("prolegs"), t.has("hind") && !t.is("hind", "plain"):
		return planMaggot
	case t.is("rings", "none") && t.is("outline", "thread"):
		return planWire
	case t.is("rings", "none") && t.is("outline", "oval", "disc") && !t.is("flat", "flat"):
		return planFlea
	case t.is("rings", "none") && t.is("flat", "flat"), t.is("rings", "none") && t.is("head", "soft"):
		return planFlatworm
	}
	return planWorm
}

// builds are the plans for the builds that a catalog can name, where traits
// cannot tell.
var builds = map[string]func(Traits) *plan{
	"beetle-smooth": func(Traits) *plan { return planBeetle },
	"sponge":        func(Traits) *plan { return planSponge },
	"moss-animal":   func(Traits) *plan { return planMossAnimals },
	"hydra":         func(Traits) *plan { return planHydra },
	"springtail":    func(Traits) *plan { return planSpringtail },
	"seed-shrimp":   func(Traits) *plan { return planSeedShrimp },
	"copepod":       func(Traits) *plan { return planCopepod },
	"roundworm":     func(Traits) *plan { return planRoundworm },
	"caddis": func(t Traits) *plan {
		switch {
		case t.has("pupa"):
			return planPupa
		case t.is("case", "carried"):
			return planCased
		}
		return planCaddis
	},
	"penny":     func(Traits) *plan { return planPenny },
	"scavenger": func(Traits) *plan { return planScavenger },
	"armoured":  func(Traits) *plan { return planArmoured },
	"tiger":     func(Traits) *plan { return planTiger },
	"bug-domed": func(Traits) *plan { return planBugDomed },
	"bug": func(t Traits) *plan {
		if t.is("upside", "belly") && t.is("hindlegs", "oars") {
			return planBackswimmer
		}
		return planBug
	},
	"beetle-waisted":  func(Traits) *plan { return planBeetleWaisted },
	"beetle-dotted":   func(Traits) *plan { return planBeetleDotted },
	"beetle-parallel": func(Traits) *plan { return planBeetleParallel },
	"hellgrammite":    func(Traits) *plan { return planHellgrammite },
	"damselfly":       func(Traits) *plan { return planDamselfly },
	"dragonfly":       func(Traits) *plan { return planDragonfly },
	"mayfly":          func(Traits) *plan { return planMayfly },
	"stonefly":        func(Traits) *plan { return planStonefly },
}
