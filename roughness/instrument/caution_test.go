package instrument_test

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/standards"
)

// Every check, the budget and the picture of a decision carry the caution.
func TestCautionBesideChecks(t *testing.T) {
	ctx := context.Background()
	specimen, err := instrument.CheckSpecimen(ctx, []roughness.Profile{sine(2.9, 50, 4800, 0.5), sine(3, 50, 4800, 0.5), sine(3.1, 50, 4800, 0.5)}, nil,
		instrument.Specimen{Type: "C1", Symbol: "Rz", Value: 3, Expanded: 0.1}, instrument.Allowance{Share: 0.05}, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	noise, err := instrument.CheckNoise(ctx, []roughness.Profile{sine(0.02, 50, 4800, 0.5)}, nil, nil, instrument.Session{})
	if err != nil {
		t.Fatal(err)
	}
	for _, check := range []any{specimen, noise} {
		b, err := json.Marshal(check)
		if err != nil {
			t.Fatal(err)
		}
		var got struct{ Caution string }
		if err := json.Unmarshal(b, &got); err != nil || got.Caution != standards.Caution {
			t.Errorf("%T: %q, %v", check, got.Caution, err)
		}
	}
	budget, err := instrument.BudgetOn(ctx, trace(1), nil, "Rz", instrument.BudgetInput{NoiseRq: 0.01})
	if err != nil || budget.Caution != standards.Caution {
		t.Errorf("budget: %v, %v", budget, err)
	}
	picture := figure.Decision{Symbol: "Rz", Unit: "µm", Limits: []figure.Limit{{Value: 3.2, Accept: 3.2, Reject: 3.2}}, Values: []figure.Measured{{Name: "trace 1", Value: 2.9}}}.Draw(figure.Options{})
	if !strings.Contains(picture.SVG, standards.Caution) {
		t.Error("the picture of a decision has no caution")
	}
}
