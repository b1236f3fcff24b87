package build_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/figure"
)

// heirBase is a lab with a process to build on; each case adds processes.
func heirBase() map[string]string {
	return map[string]string{
		"lab.toml":             "[lab]\nname = \"Test\"\n[tank.double]\nfill = \"600 mL\"\ntakes = { 135 = 2 }\n",
		"solutions/stop.toml":  "name = \"stop\"\nrole = \"stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n[strength.weak]\ndilute = \"1+1\"\n",
		"materials/film.toml":  "name = \"film\"\nbase = \"film\"\nformats = [\"135-36\"]\n",
		"processes/first.toml": firstProcess,
	}
}

const firstProcess = `name = "First"
base = "film"
temperature = { at = "20 °C" }
clock = { starts = "pour-in", drain = "10 s" }
never = ["open the lid"]
[agitate.gentle]
first = "6 in 30 s"
then = "4 every 60 s"
[[step]]
id = "stop"
bath = "stop.stock"
time = "2:00"
agitate = "gentle"
[[step]]
id = "hold"
do = "hold in water"
time = "3:00"
[[step]]
id = "wash"
fills = [5, 10]
collect_first = 1
[origin]
all = "memory"
`

// TestHeirs builds processes on others: what is inherited points at the file
// that says it, what is changed at the table of the change.
func TestHeirs(t *testing.T) {
	files := heirBase()
	files["processes/second.toml"] = `name = "Second"
like = "first"
never = ["hurry"]
[change.stop]
bath = "stop.weak"
[change.wash]
flow = "2 L/min"
time = "4:00"
[origin]
all = "measured"
`
	files["processes/third.toml"] = `name = "Third"
like = "second"
[change.stop]
time = "1:00"
`
	files["processes/fourth.toml"] = `name = "Fourth"
base = "film"
then = { like = "second", from = "hold" }
[[step]]
id = "soak"
bath = "stop.stock"
until = "it is soft"
`
	r, err := build.Work(options(folder(files)))
	require.NoError(t, err)
	require.Empty(t, r.Faults)
	records := map[string]*figure.Record{}
	for _, f := range r.Binder.Figures {
		records[f.ID] = f
	}
	for _, c := range []struct{ id, shown, file, key, origin string }{
		{"first/time.stop", "2:00", "processes/first.toml", "step[0].time", "memory"},
		{"second/time.stop", "2:00", "processes/first.toml", "step[0].time", "memory"},
		{"second/time.wash", "4:00", "processes/second.toml", "change.wash.time", "measured here"},
		{"second/flow.wash", "2", "processes/second.toml", "change.wash.flow", ""},
		{"second/first.stop", "30", "processes/first.toml", "agitate.gentle.first", "memory"},
		{"second/temperature", "20.0", "processes/first.toml", "temperature.at", "memory"},
		{"third/time.stop", "1:00", "processes/third.toml", "change.stop.time", "house"},
		{"third/time.wash", "4:00", "processes/second.toml", "change.wash.time", "measured here"},
		{"third/time.hold", "3:00", "processes/first.toml", "step[1].time", "memory"},
		{"fourth/time.hold", "3:00", "processes/first.toml", "step[1].time", "memory"},
		{"fourth/time.wash", "4:00", "processes/second.toml", "change.wash.time", "measured here"},
	} {
		f, ok := records[c.id]
		require.True(t, ok, "no figure %s", c.id)
		require.Equal(t, c.shown, f.Shown, c.id)
		require.Equal(t, c.file, f.Inputs[0].Where.File, c.id)
		require.Equal(t, c.key, f.Inputs[0].Where.Key, c.id)
		require.Positive(t, r.Loaded.Line(c.file, c.key), "%s: no such key", c.id)
		if c.origin != "" {
			require.Equal(t, c.origin, f.Inputs[0].Origin.String(), c.id)
		}
	}
	for id, why := range map[string]string{
		"second/fills.wash":    "a changed step is no longer what it was",
		"fourth/time.soak":     "a step by eye has no time",
		"fourth/at.after-soak": "the clock stops at a step by eye",
		"fourth/at.after-hold": "and does not start again",
	} {
		_, there := records[id]
		require.False(t, there, "%s: %s", id, why)
	}
	require.Equal(t, "1:00", records["third/at.after-stop"].Shown, "the clock goes by the changed time")
	for _, p := range r.Binder.Pages {
		if p.ID == "process/second" {
			require.Contains(t, fmt.Sprint(p.Never), "open the lid", "what the other process warns of is never dropped")
			require.Contains(t, fmt.Sprint(p.Never), "hurry")
		}
	}
}

// TestHeirFaults: what cannot be built is said where it is written, with a hint,
// and nothing else is made of it.
func TestHeirFaults(t *testing.T) {
	const head = "name = \"Heir\"\n"
	for _, c := range []struct{ name, text, want string }{
		{"an unknown process", head + "like = \"frist\"\n", `heir.toml:2:8: there is no process "frist" [reference]`},
		{"itself", head + "like = \"heir\"\n", `heir.toml:2:8: this goes round in a circle: heir is built on heir, which is built on it [loop]`},
		{"an unknown step", head + "like = \"first\"\n[change.stpo]\ntime = \"1:00\"\n", `heir.toml:3:9: first has no step "stpo" [reference]`},
		{"two kinds", head + "like = \"first\"\n[change.stop]\nfills = [5]\nflow = \"2 L/min\"\n", `heir.toml:3:9: a changed step has fills and flow [shape]`},
		{"another id", head + "like = \"first\"\n[change.stop]\nid = \"halt\"\n", `heir.toml:4:6: a changed step keeps its id [shape]`},
		{"steps of its own", head + "like = \"first\"\n[[step]]\nid = \"x\"\ndo = \"y\"\n", `heir.toml:2:1: a process that is like another has its steps, and cannot have steps of its own beside them [shape]`},
		{"nothing to change", head + "base = \"film\"\n[[step]]\nid = \"x\"\ndo = \"y\"\n[change.x]\ndo = \"z\"\n", `heir.toml:6:2: there is nothing to change: this process is not like another [shape]`},
		{"goes on with nothing", head + "base = \"film\"\nthen = { like = \"first\" }\n[[step]]\nid = \"x\"\ndo = \"y\"\n", `heir.toml:3:8: then says which process goes on, and from which of its steps [missing]`},
		{"goes on with an unknown process", head + "base = \"film\"\nthen = { like = \"last\", from = \"hold\" }\n[[step]]\nid = \"x\"\ndo = \"y\"\n", `heir.toml:3:17: there is no process "last" [reference]`},
		{"goes on from an unknown step", head + "base = \"film\"\nthen = { like = \"first\", from = \"hodl\" }\n[[step]]\nid = \"x\"\ndo = \"y\"\n", `heir.toml:3:33: first has no step "hodl" [reference]`},
		{"a step twice", head + "base = \"film\"\nthen = { like = \"first\", from = \"hold\" }\n[[step]]\nid = \"wash\"\ndo = \"y\"\n", `heir.toml:3:33: the step "wash" of first would be there twice [id]`},
		{"two ways of one name", head + "base = \"film\"\nthen = { like = \"first\", from = \"stop\" }\n[agitate.gentle]\nfirst = \"2 in 30 s\"\n[[step]]\nid = \"x\"\ndo = \"y\"\n", `heir.toml:4:10: first agitates its step "stop" in a way of the same name [id]`},
		{"a changed bath that is not there", head + "like = \"first\"\n[change.stop]\nbath = \"stop.strong\"\n", `heir.toml:4:8: "stop" has no strength "strong" [reference]`},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := heirBase()
			files["processes/heir.toml"] = c.text
			r, err := build.Work(options(folder(files)))
			require.NoError(t, err)
			require.Equal(t, "processes/"+c.want+"\n", faultLines(r))
		})
	}
	t.Run("round and round", func(t *testing.T) {
		files := heirBase()
		files["processes/a.toml"] = "name = \"A\"\nlike = \"b\"\n"
		files["processes/b.toml"] = "name = \"B\"\nthen = { like = \"a\", from = \"x\" }\nbase = \"film\"\n[[step]]\nid = \"y\"\ndo = \"z\"\n"
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.Equal(t, "processes/b.toml:2:17: this goes round in a circle: b is built on a, which is built on it [loop]\n", faultLines(r))
	})
	t.Run("what is wrong with a step is said once", func(t *testing.T) {
		files := heirBase()
		files["processes/first.toml"] = strings.Replace(firstProcess, "stop.stock", "stop.sotck", 1)
		files["processes/heir.toml"] = head + "like = \"first\"\n"
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.Equal(t, "processes/first.toml:11:8: \"stop\" has no strength \"sotck\" [reference]\n", faultLines(r))
	})
	t.Run("a parent that cannot be read", func(t *testing.T) {
		files := heirBase()
		files["processes/first.toml"] += "nonsense = 1\n"
		files["processes/heir.toml"] = head + "like = \"first\"\n"
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.Len(t, r.Faults, 1)
		require.Equal(t, "processes/first.toml", r.Faults[0].Span.File)
	})
}
