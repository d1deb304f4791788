package check

// readingHead lists what is found while head sheets are read and worked out.
var readingHead = []Rule{
	{
		ID: "cut/elevation", Title: "an elevation is an angle from 0 to 180 degrees",
		Why: "The elevation says how strands are lifted from the head where they grow: 0 lies flat down, 90 stands straight out, " +
			"180 lies flat upward. A travelling guide and a wall cut nothing before it is said; natural fall has none.",
		Of:     Sheet,
		Before: "cut: [{elevation: 270, guide: {length: 10}}]",
		After:  "cut: [{elevation: 90, guide: {length: 10}}]",
		Since:  "1.0",
	},
	{
		ID: "cut/order", Title: "a guide goes on from hair that is cut already",
		Why: "A travelling guide takes a slice of the last section along. That section has to be cut first, and the two have to " +
			"touch.",
		Of: Sheet,
		Before: "cut:\n  - {of: back, elevation: 90, guide: {after: nape}}\n" +
			"  - {of: nape, elevation: 45, guide: {length: 5, at: hairline, travels: yes}}",
		After: "cut:\n  - {of: nape, elevation: 45, guide: {length: 5, at: hairline, travels: yes}}\n" +
			"  - {of: back, elevation: 90, guide: {after: nape}}",
		Since: "1.0",
	},
	{
		ID: "head/line", Title: "a parting gives a line on the head",
		Why: "Some partings read well and give no line: three points on one line, slices that would cross, slices " +
			"counted along a line that the section does not touch.",
		Of:     Sheet,
		Before: "sections:\n  - {part: line, from: crown, to: crown, gives: [front, back]}",
		After:  "sections:\n  - {part: line, from: crown, to: left ear top, gives: [front, back]}",
		Since:  "1.0",
	},
	{
		ID: "head/misses", Title: "a parting divides the sections it is made in",
		Why: "A line beside a section, or along its edge, leaves it whole, and the drawing would show a section that is not there. " +
			"The message says how near the line comes.",
		Of:     Sheet,
		Before: "sections:\n  - part: ear to ear\n  - {part: triangle, point: 6 cm behind front hairline, of: back}",
		After:  "sections:\n  - part: ear to ear\n  - {part: triangle, point: 6 cm behind front hairline, of: front}",
		Since:  "1.0",
	},
	{
		ID: "head/name", Title: "every section has a name of its own",
		Why: "Formulas, cuts and the text speak of sections by name. Formulas, sheets and sections of a lesson share one set of " +
			"names, so that a name means one thing.",
		Of:     Sheet,
		Before: "sections:\n  - {part: centre, gives: [side, side]}",
		After:  "sections:\n  - {part: centre, gives: [left side, right side]}",
		Since:  "1.0",
	},
	{
		ID: "head/number", Title: "numbers of a head sheet lie within what can be parted",
		Why: "A side parting runs beside the middle of the head, a tooth narrower than 4 mm cannot be drawn with a comb. Lengths " +
			"are in cm, angles in degrees; the units may be left out.",
		Of:     Sheet,
		Before: "sections:\n  - {part: side, on: left, distance: 11}",
		After:  "sections:\n  - {part: side, on: left, distance: 4}",
		Since:  "1.0",
	},
	{
		ID: "head/parting", Title: "a parting is one that plait knows",
		Why:    "Each kind of parting is a line with a rule of its own; the handbook shows them.",
		Of:     Sheet,
		Before: "sections:\n  - part: center",
		After:  "sections:\n  - part: centre",
		Since:  "1.0",
	},
	{
		ID: "head/place", Title: "a place is a landmark, or a distance from one",
		Why: "Partings and guides run through landmarks: crown, occipital bone, left ear top. A distance is counted along the " +
			"middle of the head, or up from the top of an ear.",
		Of:     Sheet,
		Before: "sections:\n  - {part: horizontal, at: ociput}",
		After:  "sections:\n  - {part: horizontal, at: occipital bone}",
		Since:  "1.0",
	},
	{
		ID: "head/too-many", Title: "a head sheet can be drawn",
		Why:    "More than 200 sections, or 400 lines, are more than a page can show and more than anyone parts on one head.",
		Of:     Sheet,
		Before: "sections:\n  - {part: radial, round: crown, into: 36}\n  - {part: concentric, round: crown, into: 12}",
		After:  "sections:\n  - {part: radial, round: crown, into: 8}",
		Since:  "1.0",
	},
	{
		ID: "head/unknown-section", Title: "what is named on a head is a section of its sheet",
		Why: "A formula that goes on a section nobody parted cannot be weighed by its area or shown on the drawing. In a lesson " +
			"with a head sheet the words of `on` are its sections; other words stand in quotes, as in on: [\"one strand\"].",
		Of:     Sheet,
		Before: "draw: {number: [nap, back, front]}",
		After:  "draw: {number: [nape, back, front]}",
		Since:  "1.0",
	},
	{
		ID: "head/view", Title: "a view of a head sheet is one that plait can draw",
		Why: "Sections are drawn from the left, right, back, front and top; a cut also as lifted strands, as a map of lengths and " +
			"as the shape that falls.",
		Of:     Sheet,
		Before: "draw: {views: [left, side]}",
		After:  "draw: {views: [left, right]}",
		Since:  "1.0",
	},
	{
		ID: "head/word", Title: "the words of a head sheet are known",
		Why:    "A word such as gravity or toward face stands for one way of falling or working; no other is guessed.",
		Of:     Sheet,
		Before: "draw: {arrows: [{on: nape, run: downwards}]}",
		After:  "draw: {arrows: [{on: nape, run: down}]}",
		Since:  "1.0",
	},
}
