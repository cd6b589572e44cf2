package sheet

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var thresholdName = regexp.MustCompile(`^[a-z]+[a-z0-9]*(_[a-z0-9]+)*$`)

// Every rule can be listed, set by a house and found in a sheet.
func TestRulesAreWhole(t *testing.T) {
	kinds, owners := map[string]bool{}, map[*Threshold]string{}
	for _, rule := range rules {
		if !noteKind.MatchString(rule.Kind) || kinds[rule.Kind] || rule.Measures == "" || rule.find == nil || len(rule.Weights) == 0 {
			t.Errorf("rule %+v", rule)
		}
		kinds[rule.Kind] = true
		names := map[string]bool{switchKey: true}
		for _, h := range rule.Thresholds {
			if !thresholdName.MatchString(h.Name) || names[h.Name] || h.Unit == "" || h.Reason == "" || h.Source == "" {
				t.Errorf("%s: threshold %+v", rule.Kind, h)
			}
			if !(h.Min <= h.Default && h.Default <= h.Max && h.Min < h.Max) {
				t.Errorf("%s.%s is %g by default, from %g to %g", rule.Kind, h.Name, h.Default, h.Min, h.Max)
			}
			if owners[h] != "" {
				t.Errorf("%s and %s share %s", owners[h], rule.Kind, h.Name)
			}
			names[h.Name], owners[h] = true, rule.Kind
		}
	}
}

// The thresholds in force stand in every note beside its numbers, and in the
// settings.
func TestNotesCarryTheirThresholds(t *testing.T) {
	house := mustHouse(t, "[slide]\nfix_share = 0.09\n[even-hops]\non = false\n")
	s := feetSample()
	s.Notes = nil
	s.Review(DefaultFigureHeight, house)
	settings := s.Settings["rules"].(map[string]any)
	for _, n := range s.Notes {
		table := settings[n.Kind].(map[string]any)
		for name, value := range table {
			if name != switchKey && n.Measured[name] != value {
				t.Errorf("%s: %s is %v in the note, %v in the settings", n.Kind, name, n.Measured[name], value)
			}
		}
	}
	if len(s.Notes) == 0 || s.Notes[0].Kind != "slide" || s.Notes[0].Weight != WeightLook {
		t.Errorf("a slip of 8.2 %% with a fix from 9 %% on: %+v", s.Notes)
	}
	if slide := settings["slide"].(map[string]any); slide["fix_share"] != 0.09 || slide["slide_share"] != SlideShare {
		t.Errorf("settings %v", slide)
	}
	for _, n := range s.Notes {
		if n.Kind == "even-hops" {
			t.Error("a rule that is off gave a note")
		}
	}
}

// What a rule finds has no member of a threshold's name: its number would be
// lost under the threshold.
func TestMeasuredKeepsClearOfThresholds(t *testing.T) {
	for name, s := range reviewed(t) {
		r := &review{s, nil}
		for _, rule := range rules {
			for _, n := range rule.find(r) {
				for _, h := range rule.Thresholds {
					if _, taken := n.Measured[h.Name]; taken {
						t.Errorf("%s: %s measures %s, which is a threshold", name, rule.Kind, h.Name)
					}
				}
			}
		}
	}
}

// reviewed are sheets that every rule has something to say about.
func reviewed(t *testing.T) map[string]*Sheet {
	t.Helper()
	return map[string]*Sheet{
		"feet":     feetSample(),
		"rooted":   ground(film, 240).stand(1, 96, 300, 0).stand(1, 96, 340, 0).review(t),
		"foot pop": ground(film, 240).stand(5, 30, 300, 0).stand(33, 60, 301, 0).review(t),
		"drops":    ground(film, 240).stand(10, 20, 300, 0).fly(21, 12, 0.5).stand(33, 44, 300, 0).review(t),
		"stumble":  ground(film, 240).walk(5, 0, 12, 12, 12, 12, 17, 12, 12, 12).review(t),
		"even":     acted(film, even(20)...).review(t),
		"sizes":    acted(film, sized(0.9, 1, 0.95, 1, 0.9)...).review(t),
		"short":    acted(film, part{20, frozen}, part{8, 1}, part{4, frozen}, part{8, 1}, part{20, frozen}).review(t),
		"dead":     acted(film, part{20, frozen}, part{8, 1}, part{96, frozen}).review(t),
		"restless": acted(film, part{20, frozen}, part{100, 1}).review(t),
		"pop":      acted(film, varied(frozen)...).popping(Pop{Start: 70, End: 70, Jump: 0.05}).review(t),
		"low":      framedSheet(t, [4]float64{250, 170, 100, 180}, [4]float64{250, 170, 100, 180}),
		"tight":    framedSheet(t, [4]float64{250, 4, 100, 300}, [4]float64{250, 4, 100, 300}),
		"edge":     framedSheet(t, [4]float64{0, 60, 100, 260}, [4]float64{0, 60, 100, 260}),
		"late":     acted(film, varied(alive)...).stressing(4, 4, 5, 3).review(t),
		"pause":    acted(film, part{20, alive}, part{79, 1}).speaking(1, 40).speaking(61, 99).review(t),
		"words":    acted(film, part{60, alive}, part{26, frozen}, part{13, 1}).speaking(1, 40).speaking(61, 99).review(t),
		"offset":   landing(0.2, bounces...).review(t),
		"twins":    twinReview(t),
		"repeats":  struck([]int{-1, -1, -1, 1}, 0.4, 0.4).review(t),
		"weak":     struck([]int{-1, -1}, 0.05, 0.08).review(t),
		"hitch":    acted(film, varied(frozen)...).stall(5, 80, 80, 0.96).review(t),
	}
}

// Every note of a rule with a gauge has the number it speaks of.
func TestGauges(t *testing.T) {
	gauged := 0
	for name, s := range reviewed(t) {
		r := &review{s, nil}
		for _, rule := range rules {
			if len(rule.Gauge.Names) == 0 {
				continue
			}
			for _, n := range rule.find(r) {
				n.Kind = rule.Kind
				if _, value, _, ok := n.Gauged(); !ok || value < 0 {
					t.Errorf("%s: a note of %s has none of %v", name, rule.Kind, rule.Gauge.Names)
				}
				gauged++
			}
		}
	}
	if gauged < 5 {
		t.Errorf("only %d notes with a gauge", gauged)
	}
}

func TestEveryRuleSpeaks(t *testing.T) {
	spoken := map[string][]string{}
	for _, s := range reviewed(t) {
		for _, n := range s.Notes {
			spoken[n.Kind] = append(spoken[n.Kind], n.Weight)
		}
	}
	for _, rule := range rules {
		if len(spoken[rule.Kind]) == 0 {
			t.Errorf("no sheet of these tests has a %s", rule.Kind)
		}
		for _, weight := range spoken[rule.Kind] {
			if !slices.Contains(rule.Weights, weight) {
				t.Errorf("%s gives a %s, which it does not say", rule.Kind, weight)
			}
		}
	}
}

func TestRulesTableFits(t *testing.T) {
	for _, width := range []int{0, 1, MinWidth, 200} {
		var b bytes.Buffer
		if err := WriteRulesTable(&b, nil, width); err != nil {
			t.Fatal(err)
		}
		most := max(width, MinWidth)
		if width == 0 {
			most = DefaultWidth
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if n := len([]rune(line)); n > most {
				t.Errorf("%d characters on a page of %d: %q", n, most, line)
			}
		}
		for _, rule := range rules {
			if !strings.Contains(b.String(), rule.Kind+" (") {
				t.Errorf("%s is not listed", rule.Kind)
			}
		}
	}
}

func TestRulesTableSaysWhatTheHouseHas(t *testing.T) {
	var b bytes.Buffer
	if err := WriteRulesTable(&b, mustHouse(t, "slide.on = false\nfoot-pop.pop_seconds_most = 0.125"), 0); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"slide (look or fix, switched off)", "0.125", "the house's own; by default"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in\n%s", want, b.String())
		}
	}
}

func TestRulesJSON(t *testing.T) {
	var b bytes.Buffer
	if err := WriteRulesJSON(&b, mustHouse(t, "slide.on = false\nslide.fix_share = 0.05")); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Rules []struct {
			Kind       string
			On         bool
			Thresholds []struct {
				Name           string
				Value, Default float64
			}
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Rules) != len(rules) || got.Rules[0].Kind != "slide" || got.Rules[0].On || !got.Rules[1].On {
		t.Fatalf("rules %+v", got.Rules)
	}
	if h := got.Rules[0].Thresholds[1]; h.Name != "fix_share" || h.Value != 0.05 || h.Default != 0.04 {
		t.Errorf("threshold %+v", h)
	}
}
