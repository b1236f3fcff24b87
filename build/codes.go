package build

// Explanation says what a fault's code means, with an example that raises it.
type Explanation struct {
	Code, Means string
	// File and Example are a definition with the fault; Mend says what to write.
	File, Example, Mend string
}

// Explanations lists the codes of faults. A test holds each example to its code.
var Explanations = []Explanation{
	{"quantity", "a quantity without its unit, with another unit, or not a number", "solutions/stop.toml", "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 gm\"\n", `write "15 g"`},
	{"dilution", "a dilution that can be read two ways or dilutes nothing", "solutions/stop.toml", "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"300 g\"\n[strength.working]\ndilute = \"1:19\"\n", `write "1+19" for one part and nineteen parts`},
	{"key", "an unknown key: a typing mistake, or a key in the wrong table", "solutions/stop.toml", "nmae = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n", `write name = "citric stop"`},
	{"missing", "a required key is missing", "solutions/stop.toml", "name = \"citric stop\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n", `write per = "1 L": the volume of finished solution that the amounts are for`},
	{"reference", "the name of something that is not there", "solutions/stop.toml", "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acd.anhydrous\"\namount = \"15 g\"\n", `write add = "citric-acid.anhydrous"`},
	{"form", "a chemical that comes in several forms, and nobody said which is weighed", "solutions/stop.toml", "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid\"\namount = \"15 g\"\n", `write add = "citric-acid.anhydrous" or "citric-acid.monohydrate"`},
	{"refused", "a substance that this lab does not keep, or a form whose content is uncertain",
		"solutions/alkali.toml",
		"name = \"alkali\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-carbonate.decahydrate\"\namount = \"100 g\"\n",
		"weigh the anhydrous or the monohydrate"},
	{"range", "an impossible number: negative, zero, or too large", "solutions/stop.toml",
		"name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"-15 g\"\n",
		"write a number above zero"},
	{"loop", "a strength or solution that is made of itself", "solutions/stop.toml",
		"name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n[strength.a]\nfrom = \"b\"\ndilute = \"1+1\"\n[strength.b]\nfrom = \"a\"\ndilute = \"1+1\"\n",
		"dilute from a strength that is made first"},
	{"id", "two things with one name", "solutions/developer.toml", "name = \"developer\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"1 g\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"94 g\"\n", `give the second step an id, such as id = "sulfite-rest"`},
	{"name",
		"a name inside a file, such as that of a tank, a strength or a step, that is too long, or that holds a letter which no id (/ @ ,) or no address of a page (# ? * : | < > \" \\) can hold",
		"lab.toml", "[lab]\nname = \"My darkroom\"\n[tank.\"five,120\"]\nfill = \"1700 mL\"\ntakes = { 120 = 3 }\n",
		"write [tank.five-120]"},
	{"shape", "a table where a list is needed, or two keys that exclude each other", "solutions/stop.toml",
		"name = \"citric stop\"\nper = \"1 L\"\n[step]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n",
		"write [[step]] with two brackets"},
	{"word", "a word that is not one of the allowed words", "solutions/stop.toml", "name = \"citric stop\"\nrole = \"stopper\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n", `write role = "stop"`},
	{"hazard", "a statement code where the class is needed, a class that does not exist, limits in the wrong order, or a sheet milder than the law; the last is a warning", "chemicals/alum.toml", "name = \"alum\"\n[form.dodecahydrate]\nformula = \"KAl(SO4)2·12H2O\"\n[hazards]\nclasses = [\"H319\"]\n", `write classes = ["Eye Irrit. 2"]`},
	{"formula", "a chemical formula that cannot be read", "chemicals/alum.toml",
		"name = \"alum\"\n[form.dodecahydrate]\nformula = \"KAl(SO4\"\n", "close the bracket"},
	{"ions", "ions that cannot be read, or that are not those of the formula", "chemicals/salt.toml",
		"name = \"salt\"\nions = { \"Na+\" = 2, \"Cl-\" = 1 }\n[form.pure]\nformula = \"NaCl\"\n",
		"write the ions of one unit of the salt, with the sign before the charge: \"CO3-2\""},
	{"ph", "a pH that was written down and does not agree with what is in the bath; a warning", "", "",
		"measure it once more, or look for a mistake in the amounts"},
	{"override",
		"a lab's own judgement of hazards that does not say who, why or until when; a warning where it is not taken",
		"solutions/stop.toml",
		"name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n[strength.stock]\noverride = { classes = [\"Eye Irrit. 2\"], why = \"it stings\", by = \"KH1\" }\n",
		"write until when it holds: until = 2027-01-10"},
	{"cas", "a CAS number whose check digit is wrong", "chemicals/alum.toml",
		"name = \"alum\"\n[form.dodecahydrate]\nformula = \"KAl(SO4)2·12H2O\"\ncas = \"7784-24-8\"\n",
		"copy the number from the pack again"},
	{"price", "a price without a currency, or in two currencies", "store.toml", "[[pack]]\nof = \"citric-acid.anhydrous\"\nprice = \"6.00 /kg\"\n", `write price = "6.00 EUR/kg"`},
	{"origin", "an origin that is neither one of the known words nor in sources.toml", "solutions/stop.toml", "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n[origin]\nall = \"hearsay\"\n", `write all = "memory"`},
	{"agitation", "an agitation that does not say how many turns and how often", "processes/film.toml", "name = \"film\"\nbase = \"film\"\n[agitate.gentle]\nfirst = \"six times\"\n[[step]]\nid = \"load\"\ndo = \"load the reels\"\n", `write first = "6 in 30 s"`},
	{"time", "a step time that cannot be read", "processes/film.toml", "name = \"film\"\nbase = \"film\"\n[[step]]\nid = \"rinse\"\nflow = \"2 L/min\"\ntime = \"a while\"\n", `write time = "1:00"`},
	{"date", "a date that is not a day, or an impossible one: a log out of order, before the mixing or in the future",
		"solutions/stop.toml",
		"name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n[control]\ndate = \"yesterday\"\n",
		"write date = 2026-03-14 without quotes"},
	{"life", "a keeping time that is not in whole minutes, hours, days, weeks or months", "solutions/stop.toml", "name = \"citric stop\"\nper = \"1 L\"\nkeeps = { full = \"half a year\" }\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n", `write full = "6 months"`},
	{"address", "an address that is not http or https, or is too long for a QR code on a label", "lab.toml", "[lab]\nname = \"My darkroom\"\n[print]\naddress = \"darkroom.example\"\n", `write address = "https://darkroom.example/binder"`},
	{"syntax", "a line that is not TOML", "solutions/stop.toml", "name = \"citric stop\nper = \"1 L\"\n",
		"close the quotes"},
	{"encoding", "a file that is not UTF-8", "", "", "save the file as UTF-8"},
	{"repeated", "a key or table that is given twice", "solutions/stop.toml",
		"name = \"citric stop\"\nname = \"stop\"\n", "keep one of the two"},
	{"folder", "a folder that nothing reads; a warning", "", "",
		"move its files to one of the folders that the hint names"},
	{"strength", "a bath named without its strength where there are several; a warning", "", "",
		"write solution.strength"},
	{"unused", "something that is written down and never used; a warning", "", "", "use it, or remove it"},
	{"permit", "a word that is not a permit reference, where a permit would open a drain, or a limit without its permit; a warning where a route leads down a drain what the permit's limits do not allow", "local.toml", "[permit]\ndrain = \"no\"\n", `write drain = "none" where somebody asked and was refused`},
	{"apart", "one drum for two things that must never meet", "", "",
		"give one of the two a drum of its own, or leave drum out of its route"},
	{"review", "a card that is past the day of its review; a warning", "", "",
		"read the card, correct it, and write the next review day under [control]"},
	{"pack",
		"a pack past its best-before, or a kit in the store of which a part is missing or of another lot; a warning",
		"", "", "ask first whether it may be used, and correct store.toml"},
	{"letters", "letters that the face for paper does not have; a warning", "", "",
		"look at the print: another typeface of the computer draws them"},
	{"fit", "a card that does not fit one sheet of its paper; a warning that says what was done", "", "",
		"shorten what it says, or name a larger paper under [print] in lab.toml"},
	{"file", "a file or folder that a binder does not know or cannot read", "labb.toml", "[lab]\n",
		"rename it to lab.toml"},
}

// Explain finds what a fault's code means.
func Explain(code string) (Explanation, bool) {
	for _, e := range Explanations {
		if e.Code == code {
			return e, true
		}
	}
	return Explanation{}, false
}
