package figure

import (
	"sync"

	"rillkey/taxa/wording"
)

// plan is a way of building an animal on the drawing board.
type plan struct {
	name string // as said in descriptions
	view string // wording.Mark("above"), "the side"
	draw func(*sketch)
}

// The plans. A pointer names one, so that two drawings can be known to be of
// one build.
var (
	planNymph          = &plan{wording.Mark("six-legged nymph or larva"), wording.Mark("above"), nymph}
	planStonefly       = &plan{wording.Mark("stonefly nymph"), wording.Mark("above"), stonefly}
	planMayfly         = &plan{wording.Mark("mayfly nymph"), wording.Mark("above"), mayfly}
	planDragonfly      = &plan{wording.Mark("dragonfly nymph"), wording.Mark("above"), dragonfly}
	planDamselfly      = &plan{wording.Mark("damselfly nymph"), wording.Mark("above"), damselfly}
	planHellgrammite   = &plan{wording.Mark("larva with jaws and side arms"), wording.Mark("above"), hellgrammite}
	planBeetleParallel = &plan{wording.Mark("beetle with parallel sides"), wording.Mark("above"), parallelSided}
	planBeetleDotted   = &plan{wording.Mark("beetle pointed at both ends"), wording.Mark("above"), dotted}
	planBeetleWaisted  = &plan{wording.Mark("beetle with a waist"), wording.Mark("above"), waisted}
	planBug            = &plan{wording.Mark("water bug"), wording.Mark("above"), bug}
	planBackswimmer    = &plan{wording.Mark("boat-shaped bug"), wording.Mark("above, and from the side as it hangs"), hangingBug}
	planBugDomed       = &plan{wording.Mark("domed bug"), wording.Mark("the side, belly up"), pygmy}
	planTiger          = &plan{wording.Mark("hunting larva"), wording.Mark("above"), tiger}
	planArmoured       = &plan{wording.Mark("larva of hard rings"), wording.Mark("above"), armoured}
	planScavenger      = &plan{wording.Mark("plump larva"), wording.Mark("above"), scavenger}
	planPenny          = &plan{wording.Mark("saucer-like larva"), wording.Mark("above and beneath"), penny}
	planCaddis         = &plan{wording.Mark("caddisfly larva without a case"), wording.Mark("the side"), caddis}
	planRoundworm      = &plan{wording.Mark("round worm"), wording.Mark("above"), roundworm}
	planSeedShrimp     = &plan{wording.Mark("seed shrimp"), wording.Mark("the side"), seedShrimp}
	planSpringtail     = &plan{wording.Mark("springtail"), wording.Mark("the side"), springtail}
	planGrub           = &plan{wording.Mark("soft larva with six legs"), wording.Mark("the side"), grub}
	planCased          = &plan{wording.Mark("larva in a case"), wording.Mark("the side"), cased}
	planBeetle         = &plan{wording.Mark("beetle"), wording.Mark("above"), smoothOval}
	planLandInsect     = &plan{wording.Mark("insect of the land"), wording.Mark("above"), landInsect}
	planLandBeetle     = &plan{wording.Mark("beetle on its back"), wording.Mark("beneath"), landBeetle}
	planMaggot         = &plan{wording.Mark("legless larva"), wording.Mark("the side"), flyLarva}
	planBeaded         = &plan{wording.Mark("larva of beads"), wording.Mark("above"), beaded}
	planCrayfish       = &plan{wording.Mark("crayfish-like animal"), wording.Mark("above"), crayfish}
	planShrimp         = &plan{wording.Mark("shrimp-like animal"), wording.Mark("the side"), shrimp}
	planScud           = &plan{wording.Mark("side-swimmer"), wording.Mark("the side"), scud}
	planSowbug         = &plan{wording.Mark("flat animal with many legs"), wording.Mark("above"), sowbug}
	planMite           = &plan{wording.Mark("mite-like animal"), wording.Mark("above"), mite}
	planSpider         = &plan{wording.Mark("spider-like animal"), wording.Mark("above"), spider}
	planFlea           = &plan{wording.Mark("water-flea-like animal"), wording.Mark("the side"), flea}
	planSnail          = &plan{wording.Mark("snail"), wording.Mark("the side of its opening"), snail}
	planLimpet         = &plan{wording.Mark("cap-shaped shell"), wording.Mark("the side, and from above"), limpet}
	planClam           = &plan{wording.Mark("shell of two halves"), wording.Mark("the side"), clam}
	planLeech          = &plan{wording.Mark("leech-like animal"), wording.Mark("above"), leech}
	planCopepod        = &plan{wording.Mark("copepod"), wording.Mark("above"), copepod}
	planFlatworm       = &plan{wording.Mark("flat worm"), wording.Mark("above"), flatworm}
	planWire           = &plan{wording.Mark("thread-thin worm"), wording.Mark("above"), wire}
	planWorm           = &plan{wording.Mark("worm"), wording.Mark("above"), worm}
	planFish           = &plan{wording.Mark("fish"), wording.Mark("the side"), fish}
	planTadpole        = &plan{wording.Mark("tadpole"), wording.Mark("the side"), tadpole}
	planPupa           = &plan{wording.Mark("resting stage"), wording.Mark("the side"), pupa}
	planRemains        = &plan{wording.Mark("no living animal"), wording.Mark("the side"), remains}
	planSponge         = &plan{wording.Mark("crust on a stone"), wording.Mark("the side"), spongeAlone}
	planMossAnimals    = &plan{wording.Mark("twigs on a stone"), wording.Mark("the side"), mossAnimalsAlone}
	planHydra          = &plan{wording.Mark("thread with a crown"), wording.Mark("the side"), hydra}
	planEel            = &plan{wording.Mark("eel-like animal"), wording.Mark("the side"), eel}
	planCrab           = &plan{wording.Mark("crab"), wording.Mark("above"), crab}
	planSalamander     = &plan{wording.Mark("salamander"), wording.Mark("above"), salamander}
	planCentipede      = &plan{wording.Mark("long animal with very many legs"), wording.Mark("above"), centipede}
	planSlug           = &plan{wording.Mark("slug"), wording.Mark("the side"), slug}
	planFishLouse      = &plan{wording.Mark("flat disc with two suckers"), wording.Mark("beneath"), fishLouse}
	planRagworm        = &plan{wording.Mark("worm with bristly paddles"), wording.Mark("above"), ragworm}
	planFalseScorpion  = &plan{wording.Mark("tiny scorpion without a tail"), wording.Mark("above"), falseScorpion}
	planHarvestman     = &plan{wording.Mark("pill on legs like threads"), wording.Mark("above"), harvestman}
	planRibbonWorm     = &plan{wording.Mark("thin worm that shoots out a thread"), wording.Mark("above"), ribbonWorm}
)

// planOf chooses the plan by what is known and by the build that a catalog names;
// nil where too little is known to draw a body that does not mislead.
func planOf(t Traits, build string) *plan {
	if p := builds()[build]; p != nil {
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
	case "30":
		return planCentipede
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
	if t.is("limbs", "none") && t.is("outline", "long", "thread") || t.is("neck", "holes") || t.is("hind", "rim") {
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
	case "bean":
		return planSeedShrimp
	}
	return planSnail
}

func sixLegged(t Traits) *plan {
	switch {
	case t.is("mouth", "beak") && !t.has("gills"), t.is("wings", "crossed"):
		return planBug
	case t.is("wings", "hard") && t.is("land", "yes"):
		return planLandBeetle
	case t.is("wings", "hard"):
		return planBeetle
	case t.is("shield", "saucer"):
		return planNymph
	case t.has("prolegs"), t.is("hooks", "two", "tiny", "ring"), t.has("humps"), t.is("posture", "curled", "bent"):
		return planGrub
	case t.is("land", "yes"):
		return planLandInsect
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
	case t.is("antennae", "pairs") && t.is("rings", "none"):
		return planSlug
	case t.is("mouth", "thread"), t.is("rings", "none") && t.is("outline", "thread") && t.is("head", "soft"):
		return planRibbonWorm
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
var builds = sync.OnceValue(func() map[string]func(Traits) *plan {
	return map[string]func(Traits) *plan{
		"beetle-smooth":  func(Traits) *plan { return planBeetle },
		"sponge":         func(Traits) *plan { return planSponge },
		"moss-animal":    func(Traits) *plan { return planMossAnimals },
		"hydra":          func(Traits) *plan { return planHydra },
		"fish-louse":     func(Traits) *plan { return planFishLouse },
		"ragworm":        func(Traits) *plan { return planRagworm },
		"false-scorpion": func(Traits) *plan { return planFalseScorpion },
		"harvestman":     func(Traits) *plan { return planHarvestman },
		"springtail":     func(Traits) *plan { return planSpringtail },
		"seed-shrimp":    func(Traits) *plan { return planSeedShrimp },
		"copepod":        func(Traits) *plan { return planCopepod },
		"roundworm":      func(Traits) *plan { return planRoundworm },
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
})
