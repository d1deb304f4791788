package lesson

import (
	"strings"
	"testing"
)

// expectDrawing looks at the inside of a drawing; want is part of what is wrong with it.
func expectDrawing(t *testing.T, inside, want string) {
	t.Helper()
	expectDrawingFile(t, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 4 4">`+inside+`</svg>`, want)
}

func expectDrawingFile(t *testing.T, text, want string) {
	t.Helper()
	small, err := readDrawing(strings.NewReader(text))
	if kept := string(small); err == nil && kept != text && (kept != "" || len(text) <= smallDrawing) {
		t.Errorf("%.80s: %d bytes are kept", text, len(kept))
	}
	if want == "" && err != nil {
		t.Errorf("%.80s: %v", text, err)
	}
	if want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
		t.Errorf("%.80s: got %v, want %s", text, err, want)
	}
}

func TestDrawingsRunNothing(t *testing.T) {
	expectDrawing(t, `<title>On</title><style>path{fill:red}</style><path d="M0 0" opacity=".5"/><a href="#top"><use xlink:href="#p"/></a>`, "")
	expectDrawing(t, `<script>x()</script>`, "holds <script>")
	expectDrawing(t, `<h:script xmlns:h="http://www.w3.org/1999/xhtml">x()</h:script>`, "holds <script>")
	expectDrawing(t, `<foreignObject/>`, "holds <foreignObject>")
	expectDrawing(t, `<g onload="x()"/>`, "has the script onload")
	expectDrawing(t, `<g OnClick="x()"/>`, "has the script OnClick")
	expectDrawing(t, `<a xlink:href="javascript:x()"/>`, "has a script in href")
	expectDrawing(t, `<a href=" java&#10;Script&#58;x()"/>`, "has a script in href")
	expectDrawing(t, `<animate attributeName="href" values="#a;javascript:x()"/>`, "has a script in values")
	expectDrawing(t, `<image href="data:text/html,x"/>`, "has a script in href")
	expectDrawing(t, `<g`, "cannot be read")
	expectDrawingFile(t, `<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "x"><svg/>`, "")
	expectDrawingFile(t, `<?xml-stylesheet type="text/xsl" href="a.xsl"?><svg/>`, "calls for <?xml-stylesheet?>")
	expectDrawingFile(t, `<!DOCTYPE svg [<!ENTITY a "b">]><svg>&a;</svg>`, "defines entities")
	// The sizes on both sides of the bound.
	comment := "<svg><!--" + strings.Repeat("x", maxDrawing-len("<svg><!----></svg>")) + "--></svg>"
	expectDrawingFile(t, comment, "")
	expectDrawingFile(t, comment+" ", "larger than 4 MB")
	// Nesting costs no more than its bytes.
	expectDrawingFile(t, strings.Repeat("<g>", 1_000_000), "cannot be read")
}
