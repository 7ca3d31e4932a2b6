package cli

import (
	"os"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
)

// newRulesFreeze writes the snapshot that the built-in pack is opened from. It
// reads the folders of a checkout, not what is built in.
func newRulesFreeze(s *session) *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:    "freeze",
		Short:  "Write the snapshot of knowledge and rules (run in a checkout, after changing either)",
		Hidden: true,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 0, 0, "none"); err != nil {
				return err
			}
			data, ps, err := engine.Freeze(os.DirFS("knowledge"), os.DirFS("rules"))
			if err != nil {
				return err
			}
			if ps.HasErrors() {
				return s.refuse(ps)
			}
			return os.WriteFile(out, data, 0o644)
		},
	}
	c.Flags().StringVar(&out, "out", "knowledge/frozen.bin", "file to write")
	return c
}
