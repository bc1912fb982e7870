package check

import (
	"iter"
	"reflect"

	"sockwright/internal/pattern"
	"sockwright/internal/script"
	"sockwright/internal/source"
)

// pieces yields every piece of one kind that the lines of a text hold, such as every
// [script.Step], with the number of its line.
func pieces[T any](words *script.Script) iter.Seq2[int, T] {
	return func(yield func(int, T) bool) {
		for i, l := range words.Lines {
			for x := range in[T](l) {
				if !yield(i+1, x) {
					return
				}
			}
		}
	}
}

// in yields every piece of one kind that a line holds.
func in[T any](l script.Line) iter.Seq[T] {
	return func(yield func(T) bool) {
		more := true
		for _, item := range l.Items {
			walk(item, func(x any) {
				if piece, is := x.(T); is && more {
					more = yield(piece)
				}
			})
		}
	}
}

// walk calls visit with every struct that a piece of a script holds, itself first: numbers,
// claims, lengths, steps, stops. Spans of the text and the insides of numbers are not
// visited.
func walk(x any, visit func(any)) { walkValue(reflect.ValueOf(x), visit) }

func walkValue(v reflect.Value, visit func(any)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if !v.IsNil() {
			walkValue(v.Elem(), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walkValue(v.Index(i), visit)
		}
	case reflect.Struct:
		switch x := v.Interface().(type) {
		case source.Span:
		case pattern.Number, script.Length:
			visit(x)
		default:
			visit(x)
			for i := range v.NumField() {
				walkValue(v.Field(i), visit)
			}
		}
	}
}
