package reference

// Sources, in words.
const (
	arithmetic = "derived by arithmetic"
	practice   = "common practice, no source"

	chemistry = "chemistry teaching pages on volume strength"
	molar     = "CODATA 2018 molar volumes and abridged standard atomic weights (the weights from memory)"
	britishPh = "British Pharmacopoeia monograph, hydrogen peroxide solution (6 per cent), a reproduced page"
	usefulDru = "A Handbook of Useful Drugs (American Medical Association)"
	density   = "web page on the density of hydrogen peroxide"

	technician = "pharmacy technician tutorial on alligation"
	handout    = "alligation handout of a pharmacy course"
	alligation = "web pages on alligation"
	homework   = "homework thread on alligation"
	slides     = "pharmacy slides on dilution"

	euLaw    = "Regulation (EU) 2019/831, Annex III entry 12"
	annex    = "Regulation (EC) No 1223/2009, Annex III, as exported about 2021"
	textbook = "Practical Modern Hair Science (2012; title from memory), ch. 4"

	college    = "Hair Colour for Hairstylists: Level 2, BCcampus 2021"
	codeGuide  = "web guide to colour charts, and common practice"
	charts     = "study notes and web charts, which differ by up to two levels; the middle reading"
	bleaching  = "dermatology review of hair bleaches"
	luster     = "Journal of Cosmetic Science 51(5), 2000, tables III and IV"
	anthropo   = "encyclopaedia article on a scale of hair colours"
	levelNames = "three printed sets of level names, one or two levels apart"

	guide     = "self-training guide for formulating colour"
	educators = "trade educators' averaging rule"
	notes     = "US study notes, which differ by a level; the ranges are common practice"
	whiteHair = "trade-press article on covering grey"

	usGallon  = "US gallon of 231 cubic inches"
	ukGallon  = "Weights and Measures Act 1985: gallon of 4.54609 L"
	pound     = "international pound of 0.45359237 kg"
	labels    = "US nutrition labels, which round the fluid ounce to 30 mL"
	bothWays  = "one textbook prints demi as 2:1, others as 1:2"
	committee = "European scientific committee on toluene-2,5-diamine, 2 October 2007"
	rootsOnly = "web guide on dye consumption"
	scalpArea = "Cureus 2026, scalp surface area (abstract)"

	alertTest  = "2023 European allergy-alert recommendation; US Food and Drug Administration: 48 hours"
	oldNotes   = "US study notes print 24 to 48 hours"
	elasticity = "web notes on hair elasticity"
	haircuts   = "general haircutting handbook and lecture notes"
	sections   = "web haircut diagram page"
)
