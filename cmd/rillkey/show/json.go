package show

import (
	"encoding"
	"encoding/json"
	"io"
	"reflect"
	"strings"
)

// JSON writes v as one document. A list without anything in it is [], never null.
func JSON(w io.Writer, v any) error {
	var text strings.Builder
	enc := json.NewEncoder(&text)
	enc.SetIndent("", "  ")
	if err := enc.Encode(withEmptyLists(v)); err != nil {
		return err
	}
	_, err := io.WriteString(w, escaped(text.String()))
	return err
}

// withEmptyLists is a value in which every list and table that holds nothing is empty and not
// missing. The value itself stays as it is.
func withEmptyLists(v any) any {
	of := reflect.ValueOf(v)
	if !of.IsValid() {
		return v
	}
	return filled(of).Interface()
}

var ownJSON, ownText = reflect.TypeFor[json.Marshaler](), reflect.TypeFor[encoding.TextMarshaler]()

func filled(v reflect.Value) reflect.Value {
	if t := v.Type(); t.Implements(ownJSON) || t.Implements(ownText) {
		return v // it writes itself
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return v
		}
		to := reflect.New(v.Type().Elem())
		to.Elem().Set(filled(v.Elem()))
		return to.Convert(v.Type())
	case reflect.Interface:
		if v.IsNil() {
			return v
		}
		to := reflect.New(v.Type()).Elem()
		to.Set(filled(v.Elem()))
		return to
	case reflect.Struct:
		to := reflect.New(v.Type()).Elem()
		to.Set(v)
		fillFields(to)
		return to
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			return v
		}
		to := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := range v.Len() {
			to.Index(i).Set(filled(v.Index(i)))
		}
		return to
	case reflect.Map:
		to := reflect.MakeMapWithSize(v.Type(), v.Len())
		for each := v.MapRange(); each.Next(); {
			to.SetMapIndex(each.Key(), filled(each.Value()))
		}
		return to
	}
	return v
}

func fillFields(of reflect.Value) {
	for i := range of.NumField() {
		switch field, v := of.Type().Field(i), of.Field(i); {
		case field.IsExported():
			v.Set(filled(v))
		case field.Anonymous && v.Kind() == reflect.Struct:
			fillFields(v)
		}
	}
}
