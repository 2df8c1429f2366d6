package record

import (
	"fmt"

	"example.com/furrow/params"
)

type choice struct{ Key, Value string }

// setChoice sets one switch of params by its name in a settings file.
func setChoice(c *params.Choices, key, value string) error {
	if key != "rsm_threshold" {
		return fmt.Errorf("there is no switch %q", key)
	}
	switch value {
	case "rp-rv":
		c.ElementThreshold = params.OwnHeights
	case "rz":
		c.ElementThreshold = params.CommonHeight
	default:
		return fmt.Errorf(`rsm_threshold must be "rp-rv" or "rz"`)
	}
	return nil
}

// listChoices gives the switches with their values.
func listChoices(c params.Choices) []choice {
	return []choice{{"rsm_threshold", map[bool]string{true: "rz", false: "rp-rv"}[c.ElementThreshold == params.CommonHeight]}}
}
