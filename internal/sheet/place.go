package sheet

import (
	"errors"
	"strings"
	"sync"

	"plait/internal/diag"
	"plait/internal/head"
	"plait/internal/source"
	"plait/internal/yamlpos"
)

// reference is a head to look landmarks up on: their names are those of every
// head.
var reference = sync.OnceValue(head.Adult)

// place reads where a point lies. Whether it lies on the scalp is found out on the
// sheet's own head, later.
func place(r *yamlpos.Reader, t source.Text) (head.Place, bool) {
	p, err := head.ParsePlace(t.Value)
	if err == nil {
		_, err = reference().Find(p)
	}
	var bad *head.PlaceError
	if errors.As(err, &bad) && bad.Reason != head.OffScalp {
		r.Report(placeFault(t, bad))
		return head.Place{}, false
	}
	return p, true
}

// placeFault words what is wrong with a place.
func placeFault(t source.Text, bad *head.PlaceError) diag.Diagnostic {
	switch bad.Reason {
	case head.UnknownLandmark:
		_, landmark := cutDistance(t.Value)
		return diag.Errorf(rulePlace, t.Span, "there is no landmark %q", landmark).
			WithHelp("%s", suggest(landmark, bad.Known, "the landmarks are"))
	case head.NoWay:
		return diag.Errorf(rulePlace, t.Span, "%q cannot be measured: from this landmark no distance can be counted this way", t.Value).
			WithHelp("measure along the middle, as in 3 cm behind front hairline, or above and below an ear top, as in 2 cm above left ear top")
	case head.OffScalp:
		return diag.Errorf(rulePlace, t.Span, "%q lies beyond the hairline", t.Value).
			WithHelp("take a shorter distance; from front hairline to nape over the middle are about %.0f cm", hairArc())
	}
	return diag.Errorf(rulePlace, t.Span, "%q is neither a landmark nor a distance from one", t.Value).
		WithHelp("write a landmark, as in crown, or a distance, as in 3 cm behind front hairline, or a share, as in 40 %% front hairline to nape")
}

// cutDistance cuts the distance off a place: "2 cm above left ear top" is about the
// left ear top.
func cutDistance(text string) (distance, landmark string) {
	for _, way := range []head.Way{head.Behind, head.Before, head.Above, head.Below} {
		if before, after, ok := strings.Cut(text, " "+string(way)+" "); ok {
			return before, after
		}
	}
	return "", text
}

func hairArc() float64 {
	front, nape := reference().HairArc()
	return nape - front
}

// pair reads the name of a landmark that lies on both sides, without its side.
func pair(r *yamlpos.Reader, t source.Text) (string, bool) {
	if _, ok := reference().Pair(t.Value); !ok {
		known := reference().Pairs()
		r.Report(diag.Errorf(rulePlace, t.Span, "%q does not lie on both sides of the head", t.Value).
			WithHelp("%s", suggest(t.Value, known, "name one that does, without left and right")))
		return "", false
	}
	return t.Value, true
}
