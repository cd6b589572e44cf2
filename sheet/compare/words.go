package compare

import (
	"fmt"
	"math"

	"holdfast/sheet/internal/page"
)

// mostSaid is how many differences the summary tells one by one.
const mostSaid = 6

// say is the summary: what a person would say aloud, a sentence a line.
func (c *Comparison) say(f *fit, least float64) []string {
	if !c.Related {
		return []string{fmt.Sprintf("These two do not look like the same acting: likeness %s, where %s is the least. Nothing is lined up.",
			percent(c.Likeness), percent(least))}
	}
	list := c.sayWhole(f)
	for i, d := range c.Differences {
		if i == mostSaid && len(c.Differences) > mostSaid+1 {
			list = append(list, fmt.Sprintf("%d further differences are listed below.", len(c.Differences)-mostSaid))
			break
		}
		list = append(list, fmt.Sprintf("At %d: %s.", d.At, d.Text))
	}
	if len(c.Differences) == 0 {
		list = append(list, c.same())
	}
	switch {
	case f.course != nil:
		list = append(list, "Their beats hardly agree; the motion curves, frame by frame, say that they are the same acting.")
	case f.tooFew():
		list = append(list, "With so few beats, only the motion curves say that they are the same acting.")
	}
	return list
}

// sayWhole tells what goes for all of the pass.
func (c *Comparison) sayWhole(f *fit) (list []string) {
	if !f.sameSpeed() {
		list = append(list, fmt.Sprintf("The pass runs at %s of the reference's speed throughout.", percent(c.Speed)))
	}
	if float64(abs(c.Offset)) > slackFrames*f.frame {
		list = append(list, fmt.Sprintf("The pass comes %s %s from its first beat on.", frameCount(abs(c.Offset)), side(c.Offset, "later", "earlier")))
	}
	if float64(abs(c.Longer)) > slackFrames*f.frame {
		list = append(list, fmt.Sprintf("The pass runs %s %s.", frameCount(abs(c.Longer)), side(c.Longer, "long", "short")))
	}
	return list
}

// same says that nothing differs, but for what was said before.
func (c *Comparison) same() string {
	if c.Speed != 1 || c.Offset != 0 || c.Longer != 0 {
		return "Otherwise every beat lies where the reference has it."
	}
	return "No difference: every beat lies where the reference has it."
}

// ratioWords says how high something is against another: "half as high".
func ratioWords(ratio float64) string {
	switch r := math.Round(ratio*10) / 10; {
	case r >= 0.45 && r <= 0.55:
		return "half as high"
	case r >= 1.9 && r <= 2.1:
		return "twice as high"
	default:
		return fmt.Sprintf("%.1f times as high", ratio)
	}
}

func side(n int, positive, negative string) string {
	if n < 0 {
		return negative
	}
	return positive
}

func abs(n int) int { return max(n, -n) }

func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

func frameCount(n int) string { return page.Count(n, "frame") }

func spanWords(s *Span) string {
	if s == nil {
		return ""
	}
	return page.Span(s.Start, s.End)
}
