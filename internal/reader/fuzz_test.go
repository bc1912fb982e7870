package reader

import (
	"reflect"
	"strings"
	"testing"

	"sockwright/internal/script"
	"sockwright/internal/source"
)

// Whatever the text: reading it ends, every line of it is accounted for, and every place that
// is told lies in it.
func FuzzRead(f *testing.F) {
	for _, text := range patternTexts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := source.NewFile("fuzz.txt", text)
		s := Read(file)
		if msg := unaccounted(file, s); msg != "" {
			t.Fatal(msg)
		}
		for _, span := range spansOf(s) {
			if span.Start > span.End || int(span.End) > len(file.Text) {
				t.Fatalf("a place at %v of %d bytes", span, len(file.Text))
			}
		}
	})
}

// Every line of every pattern is understood, prose or unread.
func TestReadIsTotal(t *testing.T) {
	for _, text := range patternTexts(t) {
		file := source.NewFile("pattern.txt", text)
		if msg := unaccounted(file, Read(file)); msg != "" {
			t.Errorf("%s\n%s", msg, text)
		}
	}
}

// unaccounted tells what of a text has been lost in reading.
func unaccounted(file *source.File, s *script.Script) string {
	if strings.IndexByte(file.Text, 0) >= 0 { // no text
		return ""
	}
	if len(s.Lines) != file.Lines() {
		return "lines have been lost"
	}
	file = s.File // with broken lines joined
	worked := 0
	for i, l := range s.Lines {
		if l.At != file.LineSpan(i+1) {
			return "a line is not where it stands: " + itoa(i+1)
		}
		if file.GoesOn(i + 1) {
			if l.Role != s.Lines[i-1].Role {
				return "line " + itoa(i+1) + " is told to be other than the one it goes on from"
			}
			continue
		}
		if blank := strings.TrimSpace(file.Line(i+1)) == ""; blank != (l.Role == script.Blank) {
			return "line " + itoa(i+1) + " is told to be " + l.Role.String()
		}
		lost := false
		for _, item := range l.Items {
			base := script.Of(item)
			if base.Line < 1 || base.Line > file.Lines() {
				return "an item on line " + itoa(base.Line)
			}
			_, is := item.(*script.Lost)
			lost = lost || is && tells(s, base.At)
		}
		switch l.Role {
		case script.Worked:
			worked += len(l.Items)
		case script.Unread:
			if len(l.Items) > 0 && !lost {
				return "line " + itoa(i+1) + " is unread, but not what of it"
			}
		}
	}
	if s.Worked > 0 && worked == 0 {
		return "something is worked, but nothing is told"
	}
	return ""
}

// tells tells whether a fault names the words at a place that could not be read.
func tells(s *script.Script, at source.Span) bool {
	for _, x := range s.Faults {
		if x.Kind == source.Unread && x.At.Start >= at.Start && x.At.End <= at.End && x.Text.String() != "" {
			return true
		}
	}
	return false
}

// spansOf collects every place that a value tells, however deep.
func spansOf(s *script.Script) (out []source.Span) {
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer, reflect.Interface:
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Struct:
			if span, ok := v.Interface().(source.Span); ok {
				out = append(out, span)
				return
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(v.Field(i))
				}
			}
		}
	}
	walk(reflect.ValueOf(s.Lines))
	walk(reflect.ValueOf(s.Faults))
	walk(reflect.ValueOf(s.Terms))
	walk(reflect.ValueOf(s.Charts))
	walk(reflect.ValueOf(s.Gauge))
	return append(out, s.SizesAt, s.TermsAt)
}
