package browsertest

import (
	"testing"

	"plait/internal/answerfile"
)

// A practical that an assessor signs on the page of its lesson goes by the paper's answer
// file into the register, once its learner ticks it.
func TestSignedPracticalReachesTheRegister(t *testing.T) {
	const weighing = "#practical_weighing"
	axe := readAxe(t)
	p := openPage(t, built(t), glossPage)
	p.waitFor("the script of questions", "() => document.querySelector('#question_weigh').dataset.ready === 'yes'")
	p.click(weighing + " [data-do=sign][value=shown]")
	p.waitText(weighing+" .said", "not ticked yet")
	p.click(weighing + " .ticks input")
	p.click(weighing + " [data-do=sign][value='not yet']")
	p.waitText(weighing+" .said", "An assessor and a date")
	p.fill(weighing+" [data-field=assessor]", "M. Bell")
	p.eval("s => { document.querySelector(s).value = '2026-05-12' }", weighing+" [data-field=date]")
	p.click(weighing + " [data-do=sign][value='not yet']")
	p.waitText(weighing+" .said", "Not yet, says M. Bell on 2026-05-12")
	expectNoFault(t, barriers(p, axe))
	p.eval("s => { document.querySelectorAll(s).forEach(i => { i.checked = true }) }", weighing+" .ticks input")
	p.click(weighing + " [data-do=sign][value=shown]")
	p.waitText(weighing+" .said", "Signed off, says M. Bell on 2026-05-12")

	p.goTo(paperPage)
	p.eval(catchFiles)
	p.fill("#exam_name", "Ada Thorn")
	p.press("\r")
	p.waitText(".brought", "brassy gloss: weighing: shown, M. Bell, 2026-05-12")
	expectNoFault(t, barriers(p, axe))
	p.click("[data-do=save]")
	p.waitText(".said.live", "Saved as")
	if file, _ := handedIn(t, p); len(file.SignOff) != 0 {
		t.Errorf("handed in without a tick: %+v", file.SignOff)
	}
	p.click(".brought label:nth-of-type(2) input")
	p.click("[data-do=save]")
	file, _ := handedIn(t, p)
	_, book := paperOfDemo(t)
	s, err := book.Mark(file)
	if err != nil || file.Damaged || len(s.SignOff) != 1 {
		t.Fatalf("marked: %+v, %v", s, err)
	}
	if got := s.SignOff[0]; got.Assessor != "M. Bell" || got.Date != "2026-05-12" || got.Verdict != answerfile.Shown || got.Points != got.Of {
		t.Errorf("in the register: %+v", got)
	}
}
