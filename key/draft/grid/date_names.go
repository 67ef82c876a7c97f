package grid

import (
	"strconv"
	"strings"
)

// dayNames are the names of months and days of the week, from Sunday on, in a language.
type dayNames struct{ months, shortMonths, weekdays, shortWeekdays []string }

// namesOfDays are the names in the language of a code: a number of [MS-LCID] in hexadecimal digits,
// of which the lowest ten bits are the language, or a tag. Those of other languages are English.
func namesOfDays(language string) dayNames {
	tag, _, _ := strings.Cut(strings.ToLower(language), "-")
	if n, err := strconv.ParseUint(language, 16, 32); err == nil {
		tag = languages[uint(n&0x3ff)%uint(len(languages))]
		if n&0x3ff >= uint64(len(languages)) {
			tag = ""
		}
	}
	lines := strings.Split(strings.TrimSpace(namesIn(tag)), "\n")
	return dayNames{strings.Fields(lines[0]), strings.Fields(lines[1]), strings.Fields(lines[2]), strings.Fields(lines[3])}
}

// languages are the tags of languages by the number of [MS-LCID].
var languages = [...]string{0x06: "da", 0x07: "de", 0x09: "en", 0x0a: "es", 0x0c: "fr", 0x10: "it", 0x13: "nl", 0x14: "nb", 0x1d: "sv"}

// namesIn are the names in a language, as spreadsheet programs write them.
func namesIn(tag string) string {
	switch tag {
	case "da":
		return `
januar februar marts april maj juni juli august september oktober november december
jan feb mar apr maj jun jul aug sep okt nov dec
søndag mandag tirsdag onsdag torsdag fredag lørdag
sø ma ti on to fr lø`
	case "de":
		return `
Januar Februar März April Mai Juni Juli August September Oktober November Dezember
Jan Feb Mär Apr Mai Jun Jul Aug Sep Okt Nov Dez
Sonntag Montag Dienstag Mittwoch Donnerstag Freitag Samstag
So Mo Di Mi Do Fr Sa`
	case "es":
		return `
enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre
ene feb mar abr may jun jul ago sep oct nov dic
domingo lunes martes miércoles jueves viernes sábado
do. lu. ma. mi. ju. vi. sá.`
	case "fr":
		return `
janvier février mars avril mai juin juillet août septembre octobre novembre décembre
janv. févr. mars avr. mai juin juil. août sept. oct. nov. déc.
dimanche lundi mardi mercredi jeudi vendredi samedi
dim. lun. mar. mer. jeu. ven. sam.`
	case "it":
		return `
gennaio febbraio marzo aprile maggio giugno luglio agosto settembre ottobre novembre dicembre
gen feb mar apr mag giu lug ago set ott nov dic
domenica lunedì martedì mercoledì giovedì venerdì sabato
dom lun mar mer gio ven sab`
	case "nb", "nn", "no":
		return `
januar februar mars april mai juni juli august september oktober november desember
jan feb mar apr mai jun jul aug sep okt nov des
søndag mandag tirsdag onsdag torsdag fredag lørdag
søn. man. tir. ons. tor. fre. lør.`
	case "nl":
		return `
januari februari maart april mei juni juli augustus september oktober november december
jan feb mrt apr mei jun jul aug sep okt nov dec
zondag maandag dinsdag woensdag donderdag vrijdag zaterdag
zo ma di wo do vr za`
	case "sv":
		return `
januari februari mars april maj juni juli augusti september oktober november december
jan. feb. mars apr. maj juni juli aug. sep. okt. nov. dec.
söndag måndag tisdag onsdag torsdag fredag lördag
sön mån tis ons tor fre lör`
	}
	return `
January February March April May June July August September October November December
Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec
Sunday Monday Tuesday Wednesday Thursday Friday Saturday
Sun Mon Tue Wed Thu Fri Sat`
}
