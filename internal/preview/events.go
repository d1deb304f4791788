package preview

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"time"
)

const (
	beat       = 15 * time.Second // a silent stream shows that it is alive this often
	streamTime = 10 * time.Second // how long a reader may take for one message
)

// message tells a page what there is now.
type message struct {
	Page   string `json:"page"`   // state of what its path leads to, see pageTag
	List   string `json:"list"`   // names what the last build found, "" for nothing
	Count  string `json:"count"`  // how much that is, in words
	Failed bool   `json:"failed"` // the last build made no site
	Whole  bool   `json:"whole"`  // pages are loaded as a whole, see Result
}

// events sends a message now and after each update, as server-sent events (WHATWG
// HTML, section 9.2), until the page goes. The page says in the query which it is.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	stream := s.subscribe()
	if stream == nil {
		http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
		return
	}
	defer s.unsubscribe(stream)
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	if r.Method == http.MethodHead {
		return
	}
	heart := time.NewTicker(beat)
	defer heart.Stop()
	page := r.URL.Query().Get("page")
	text := "retry: 300\n" + s.message(page)
	for send(w, text) == nil {
		select {
		case <-r.Context().Done():
			return
		case <-stream:
			text = s.message(page)
		case <-heart.C:
			text = ":\n\n"
		}
	}
}

// send writes to a stream. The time limit of ordinary answers does not fit one
// that never ends, so each message has its own.
func send(w http.ResponseWriter, text string) error {
	control := http.NewResponseController(w)
	if err := control.SetWriteDeadline(time.Now().Add(streamTime)); err != nil {
		return err
	}
	if _, err := fmt.Fprint(w, text); err != nil {
		return err
	}
	return control.Flush()
}

// message is the event for a page, which is named by its path as it stands in the
// address.
func (s *Server) message(page string) string {
	path, err := url.PathUnescape(page)
	if err != nil {
		path = "" // no page has an address that cannot be read
	}
	now := s.state()
	data, err := json.Marshal(message{Page: pageTag(now, path), List: now.list, Count: inWords(now.found), Failed: now.failed, Whole: now.whole})
	if err != nil {
		panic(err) // strings and truth values can always be written
	}
	return fmt.Sprintf("event: state\ndata: %s\n\n", data)
}
