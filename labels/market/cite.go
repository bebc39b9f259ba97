package market

// readIn cites what was read in November 2026 in a copy of the text.
func readIn(act, article string) Cite { return Cite{Act: act, Article: article, Read: "2026-11"} }

// readOn cites what was looked up and read on 25 November 2026.
func readOn(act, article string) Cite { return Cite{Act: act, Article: article, Read: "2026-11-25"} }

// readOnDay cites what was read on another day, such as "2026-11-28".
func readOnDay(day, act, article string) Cite { return Cite{Act: act, Article: article, Read: day} }

// memory cites what has not been read.
func memory(act, article string) Cite { return Cite{Act: act, Article: article, Memory: true} }

// house cites a rule of our own for a question that the act leaves open.
func house(act, article string) Cite { return Cite{Act: act, Article: article, House: true} }

// via names the page that was read in place of the act.
func (c Cite) via(page string) Cite {
	c.Via = page
	return c
}

// The acts, each with the edition that was read.
const (
	fic       = "Regulation (EU) No 1169/2011, consolidated 2025-04-01"
	lotAct    = "Directive 2011/91/EU"
	packs     = "Directive 76/211/EEC"
	guidance  = "Commission guidance on tolerances, December 2012"
	chocolate = "Directive 2000/36/EC"
	honeyAct  = "Directive 2001/110/EC as amended by (EU) 2024/1438"
	frozenAct = "Directive 89/108/EEC"
	french    = "Arrêté du 21 décembre 2009"

	ficGB     = "Regulation (EU) No 1169/2011 as assimilated in Great Britain"
	ppds      = "Food Information (Amendment) (England) Regulations 2019"
	lotGB     = "SI 1996/1502"
	packsGB   = "SI 2006/659"
	hygieneGB = "Food Safety and Hygiene (England) Regulations 2013"
	guideFSA  = "FSA guidance on temperature control, 2016"

	siIE = "S.I. No 489/2014"
	liv  = "SR 817.022.16"

	cfr      = "21 CFR"
	usc      = "21 U.S.C."
	eggs     = "9 CFR"
	foodCode = "FDA Food Code"
	roundUS  = "FDA, rounding rules for declaring nutrients"

	additivesAct = "Regulation (EC) No 1333/2008"
	titaniumAct  = "Regulation (EU) 2022/63"
	animalAct    = "Implementing Regulation (EU) No 931/2011"
	fdr          = "C.R.C., c. 870"
	sfcr         = "SOR/2018-108"
	cplr         = "C.R.C., c. 417"

	fsc = "Australia New Zealand Food Standards Code"
	cxs = "CXS 1-1985, rev. 2018"
	cxg = "CXG 2-1985"
)
