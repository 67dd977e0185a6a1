package notebook

// The sheet as JSON, for "work -json" and for other tools: SI values with
// their standard uncertainties, and every sentence and value as it is printed
// in metric and in inch units.

import "encoding/json"

type jsonQuantity struct {
	SI     float64 `json:"si"`
	U      float64 `json:"u,omitempty"`
	Metric string  `json:"metric"`
	Inch   string  `json:"inch"`
}

type jsonText struct {
	Metric string `json:"metric"`
	Inch   string `json:"inch"`
}

type jsonTable struct {
	Columns []string `json:"columns"`
	Rows    [][]any  `json:"rows"`
}

// MarshalJSON returns the quantity in SI and as printed.
func (q Quantity) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonQuantity{q.SI, q.U, q.In(Metric).Full(), q.In(Inch).Full()})
}

// MarshalJSON returns the sentence in both systems of units.
func (t Text) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonText{t.In(Metric), t.In(Inch)})
}

// MarshalJSON returns the sheet's items in order, each with its kind and name.
func (s *Sheet) MarshalJSON() ([]byte, error) {
	items := make([]map[string]any, len(s.Items))
	for i, item := range s.Items {
		items[i] = jsonItem(item)
		items[i]["kind"] = item.Kind()
		items[i]["name"] = item.ItemName()
	}
	return json.Marshal(map[string]any{"items": items})
}

// jsonItem returns what is particular to one kind of item.
func jsonItem(item Item) map[string]any {
	switch item := item.(type) {
	case Figure:
		if item.Unknown != "" {
			return map[string]any{"label": item.Label, "unknown": item.Unknown}
		}
		return map[string]any{"label": item.Label, "value": item.Value, "note": item.Note}
	case Table:
		return map[string]any{"title": item.Title, "table": jsonTableOf(item), "note": item.Note}
	case Chart:
		return map[string]any{"title": item.Title, "caption": item.Says(), "table": jsonTableOf(item.Data)}
	case Drawing:
		return map[string]any{"title": item.Title, "caption": item.Caption}
	case Verdict:
		return map[string]any{"tone": item.Tone, "text": item.Text}
	case Check:
		return map[string]any{"row": item.Row.ID, "what": item.Row.What, "computed": item.Computed,
			"published": item.Row.Value, "unit": item.Row.Unit, "tolerance": item.Row.Tolerance,
			"source": item.Row.Source.String(), "known": item.Row.Known, "pass": item.Pass()}
	case Caution:
		return map[string]any{"text": item.Text, "body": item.Body}
	case Exercise:
		return map[string]any{"ask": item.Ask, "answer": item.Answer, "worked": item.Worked}
	}
	return map[string]any{}
}

func jsonTableOf(t Table) jsonTable {
	out := jsonTable{Rows: [][]any{}}
	for _, c := range t.Columns {
		out.Columns = append(out.Columns, c.Label)
	}
	for _, row := range t.Rows {
		var cells []any
		for _, c := range row {
			if c.Quantity != nil {
				cells = append(cells, *c.Quantity)
			} else {
				cells = append(cells, c.Words)
			}
		}
		out.Rows = append(out.Rows, cells)
	}
	return out
}
