package roughness_test

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/standards"
)

// Every check, the budget and the picture of a decision carry the caution.
func TestCautionBesideChecks(t *testing.T) {
	ctx := context.Background()
	specimen, err := roughness.CheckSpecimen(ctx, heights(2.9, 3, 3.1), nil,
		roughness.Specimen{Type: "C1", Symbol: "Rz", Value: 3, Expanded: 0.1}, roughness.Allowance{Share: 0.05}, roughness.Session{})
	if err != nil {
		t.Fatal(err)
	}
	noise, err := roughness.CheckNoise(ctx, heights(0.02), nil, nil, roughness.Session{})
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
	budget, err := roughness.BudgetOn(ctx, rod(), nil, "Rz", roughness.BudgetInput{NoiseRq: 0.01})
	if err != nil || budget.Caution != standards.Caution {
		t.Errorf("budget: %v, %v", budget, err)
	}
	picture := figure.Decision{Symbol: "Rz", Unit: "µm", Limits: []figure.Limit{{Value: 3.2, Accept: 3.2, Reject: 3.2}}, Values: []figure.Measured{{Name: "trace 1", Value: 2.9}}}.Draw(figure.Options{})
	if !strings.Contains(picture.SVG, standards.Caution) {
		t.Error("the picture of a decision has no caution")
	}
}
