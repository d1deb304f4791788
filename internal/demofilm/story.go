package main

// scene is a step of the lesson.
type scene struct {
	title string
	lines []line
}

// line is what is said over one picture.
type line struct {
	text    string // as captions show it
	picture string // SVG within the frame
}

// story is the film. What it says is what the formula of the lesson in the folder says,
// and it parts the head as the lesson's sheet does.
func story(folder string) ([]scene, error) {
	h, err := newHeads(folder)
	if err != nil {
		return nil, err
	}
	return []scene{
		{"Read the warmth", []line{
			{"The roots are level 7, natural.\nThey need nothing.", ladder(7)},
			{"The lengths were lifted to level 8.\nThey have faded to yellow.", ladder(7, 8) + glow()},
			{"Stretch one wet hair of the lengths.\nIf it breaks, stop here.", ladder(7, 8) + strand()},
		}},
		{"Mix the gloss", []line{
			{"Two parts of 8N hold the level.", bowl(1)},
			{"One part of 8V takes the yellow.", bowl(2)},
			{"Pour 60 g of 6 vol first,\nthen 20 g of 8N and 10 g of 8V.", bowl(3)},
		}},
		{"Part the lengths from the top", []line{
			{"Draw a horseshoe parting\nround the parietal ridge.", h.parting()},
			{"Clip the top away.\nIt was never lightened and stays dry.", h.sections()},
		}},
		{"Paint from the middle outwards", []line{
			{"Paint from mid-lengths to ends,\nfrom the nape upwards.", h.painting()},
			{"When the last section is covered,\nstart the clock: 15 minutes.", h.painting() + clock(15)},
		}},
		{"Melt and rinse", []line{
			{"From the fifth minute on,\nwipe a strand every two minutes.", strands(2)},
			{"Rinse after 15 minutes, or as soon\nas the strand is there.", strands(4)},
			{"The maker’s directions rule.\nDry a strand before you judge it.", strands(4)},
		}},
	}, nil
}
