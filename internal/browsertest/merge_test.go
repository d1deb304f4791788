package browsertest

import "testing"

// readIn gives a file of progress to the revise page. Reviews are a JSON object.
func (p *page) readIn(course, reviews string) {
	p.t.Helper()
	p.eval(`(course, reviews) => {
		const input = document.querySelector('input[type=file]'), list = new DataTransfer()
		const own = document.documentElement.dataset.course
		list.items.add(new File([JSON.stringify({plait: 'progress', version: 1, course: course || own, reviews: JSON.parse(reviews), signed: {}})], 'progress.json'))
		input.files = list.files
		document.querySelector('.kept').textContent = ''
		input.dispatchEvent(new Event('change', {bubbles: true}))
	}`, course, reviews)
}

// Progress of two devices is put together whichever comes first: nothing is lost, and what
// both hold counts once.
func TestProgressIsPutTogether(t *testing.T) {
	const one, other = `{"word:base": [3400000001], "level:6": [3400000002]}`, `{"word:base": [3400000001, 3400086401], "level:7": [3400000003]}`
	p := openPage(t, built(t), "revise.html")
	for _, c := range []struct{ course, reviews, says string }{
		{"", one, "2 answers read in"},
		{"", other, "2 answers read in"},
		{"", one, "0 answers read in"},
		{"", other, "0 answers read in"},
		{"elsewhere", one, "another course: elsewhere"},
	} {
		p.readIn(c.course, c.reviews)
		p.waitText(".kept", c.says)
	}
}
