package main

import (
	"os/exec"
	"path/filepath"
	"testing"
)

// BenchmarkProcess times whole processes: the main job on a sample case, and a
// program that only links the renderer and prints one page. Compare the two of
// one run; single figures drift with the machine.
func BenchmarkProcess(b *testing.B) {
	dir := b.TempDir()
	build := func(name, pkg string) string {
		program := filepath.Join(dir, name)
		if out, err := exec.Command("go", "build", "-trimpath", "-o", program, pkg).CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
		return program
	}
	diagnose, page := build("takeup", "."), build("page", "./testdata/page")
	b.Run("diagnose", func(b *testing.B) {
		for b.Loop() {
			run(b, diagnose, "diagnose", "../../testdata/cases/creeps-since-the-cable.yaml", "--format", "terminal")
		}
	})
	b.Run("page", func(b *testing.B) {
		for b.Loop() {
			run(b, page)
		}
	})
}

func run(b *testing.B, program string, args ...string) {
	b.Helper()
	if out, err := exec.Command(program, args...).CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
}
