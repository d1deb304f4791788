package preview

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"
)

const (
	beat       = 15 * time.Second // a silent stream shows that it is alive this often
	streamTime = 10 * time.Second // how long a reader may take for one message
)

// message tells a page what there is now.
type message struct {
	Site    string `json:"site"`    // name of the newest site, "" for none
	Trouble string `json:"trouble"` // name of the list of problems, "" for none
}

// events sends a message now and after each update, as server-sent events (WHATWG
// HTML, section 9.2), until the page goes.
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
	text := "retry: 300\n" + s.message()
	for send(w, text) == nil {
		select {
		case <-r.Context().Done():
			return
		case <-stream:
			text = s.message()
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

func (s *Server) message() string {
	now := s.state()
	data, err := json.Marshal(message{Site: now.site, Trouble: now.trouble})
	if err != nil {
		panic(err) // two strings always can be written
	}
	return fmt.Sprintf("event: state\ndata: %s\n\n", data)
}
