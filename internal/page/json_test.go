package page

import (
	"encoding/json"
	"math/rand/v2"
	"reflect"
	"testing"
)

// The oracle is encoding/json itself: data of any content is written as it would be there.
func TestDataIsWrittenAsTheLibraryWritesIt(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		v := reflect.New(reflect.TypeFor[courseJSON]()).Elem()
		fill(r, v, 0)
		want, err := json.MarshalIndent(v.Interface(), "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if got := appendJSON(nil, v, 0); string(got) != string(want) {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	}
}

func TestBowlDataIsWrittenAsTheLibraryWritesIt(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		d := BowlData{Kinds: []string{}, Weights: []string{}}
		fill(r, reflect.ValueOf(&d).Elem(), 0)
		want, err := json.Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		if got := d.script(); string(got) != string(want) {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	}
}
