//go:build unix

package load

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wetside/content"
)

const stop = "name = \"citric stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"

// TestStrangeFiles: what is there and cannot be read is a fault with its place; it is
// never passed over, and never waited for. What an editor leaves is passed over with
// a warning.
func TestStrangeFiles(t *testing.T) {
	link := func(target, name string) func(string) error {
		return func(dir string) error { return os.Symlink(target, filepath.Join(dir, name)) }
	}
	pipe := func(name string) func(string) error {
		return func(dir string) error { return syscall.Mkfifo(filepath.Join(dir, name), 0o644) }
	}
	write := func(name, text string) func(string) error {
		return func(dir string) error { return os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644) }
	}
	folder := func(name string) func(string) error {
		return func(dir string) error { return os.Mkdir(filepath.Join(dir, name), 0o755) }
	}
	for _, c := range []struct {
		name    string
		make    func(dir string) error
		file    string
		what    string
		warning bool
	}{
		{"local.toml is a link to nowhere", link("/gone/local.toml", "local.toml"), "local.toml", "leads out of this folder", false},
		{"local.toml is a link to a file that was moved", link("moved.toml", "local.toml"), "local.toml", "a link that leads nowhere", false},
		{"a solution is a link to a file that was moved", link("moved.toml", "solutions/x.toml"), "solutions/x.toml", "a link that leads nowhere", false},
		{"notices are a link to a folder that was moved", link("moved", "notices"), "notices", "a link that leads nowhere", false},
		{"notices are a file", write("notices", "x"), "notices", "a file where a folder is expected", false},
		{"the house's style is a file", write("house-style", "x"), "house-style", "a file where a folder is expected", false},
		{"the processes are a file", write("processes", "x"), "processes", "a file where a folder is expected", false},
		{"local.toml is a folder", folder("local.toml"), "local.toml", "a folder where a file is expected", false},
		{"store.toml is a pipe", pipe("store.toml"), "store.toml", "a pipe, a socket or a device", false},
		{"a solution is a pipe", pipe("solutions/x.toml"), "solutions/x.toml", "a pipe, a socket or a device", false},
		{"a file is far too large", write("store.toml", strings.Repeat("# x\n", mostFile/4+1)), "store.toml", "larger than 4 MB", false},
		{"an editor's copy", write("solutions/stop.toml~", stop), "solutions/stop.toml~", "an editor's copy", true},
		{"another editor's copy", write("solutions/#stop.toml#", stop), "solutions/#stop.toml#", "an editor's copy", true},
		{"a copy of lab.toml", write("lab.toml.bak", "x"), "lab.toml.bak", "an editor's copy", true},
		{"a file that an editor holds open", link("somebody@desk.1234", "solutions/.#stop.toml"), "solutions/.#stop.toml", "an editor's copy", true},
		{"an editor's hidden copy", write("solutions/.stop.toml.swp", "x"), "solutions/.stop.toml.swp", "an editor's copy", true},
		{"a hidden copy of lab.toml", write(".lab.toml.swp", "x"), ".lab.toml.swp", "an editor's copy", true},
		{"a copy of a notice", func(dir string) error {
			return errors.Join(folder("notices")(dir), write("notices/.#house.md", "x")(dir))
		}, "notices/.#house.md", "an editor's copy", true},
		{"what is no copy", write("solutions/stop.txt", stop), "solutions/stop.txt", "not a definition", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			require.NoError(t, write("lab.toml", "[lab]\nname = \"Test\"\n")(dir))
			require.NoError(t, folder("solutions")(dir))
			require.NoError(t, write("solutions/stop.toml", stop)(dir))
			require.NoError(t, c.make(dir))
			root, err := os.OpenRoot(dir)
			require.NoError(t, err)
			defer root.Close()
			done := make(chan *Loaded)
			go func() {
				l, err := Folder(root.FS(), content.FS)
				require.NoError(t, err)
				done <- l
			}()
			select {
			case l := <-done:
				require.Len(t, l.Faults, 1, "%v", l.Faults)
				require.Equal(t, c.file, l.Faults[0].Span.File)
				require.Contains(t, l.Faults[0].What, c.what)
				require.NotEmpty(t, l.Faults[0].Hint)
				require.Equal(t, c.warning, !l.Faults.HasErrors())
				require.NotNil(t, l.Lab.Solution("stop"))
			case <-time.After(20 * time.Second):
				t.Fatal("still waiting for a file that nobody writes")
			}
		})
	}
}

// TestOriginOfNothing: a word that vouches for a key which the file does not have is a
// fault, not silence.
func TestOriginOfNothing(t *testing.T) {
	for key, hint := range map[string]string{"densty": `did you mean "density"?`, `"step[0].amout"`: `did you mean "step[0].amount"?`, "chemistry": "write the key as it stands"} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "lab.toml"), []byte("[lab]\nname = \"Test\"\n"), 0o644))
		require.NoError(t, os.Mkdir(filepath.Join(dir, "solutions"), 0o755))
		text := "density = \"1.01 g/mL\"\n" + stop + "[origin]\nall = \"house\"\ndensity = \"estimate\"\n\"step[0]\" = \"memory\"\n" + key + " = \"estimate\"\n"
		require.NoError(t, os.WriteFile(filepath.Join(dir, "solutions/stop.toml"), []byte(text), 0o644))
		l, err := Folder(os.DirFS(dir), content.FS)
		require.NoError(t, err)
		require.Len(t, l.Faults, 1, "%v", l.Faults)
		require.Equal(t, "key", l.Faults[0].Code)
		require.Equal(t, 11, l.Faults[0].Span.Start.Line)
		require.Contains(t, l.Faults[0].Hint, hint)
	}
}
