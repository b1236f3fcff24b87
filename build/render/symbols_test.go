package render

import (
	"bytes"
	"image"
	_ "image/png"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"wetside/build/render/draw"
	"wetside/build/render/testdata/fixture"
	"wetside/testdata/browser"
)

// TestPictogramsKeepToTheirFrame draws each pictogram large: between its figure
// and its frame there is white all round, so that the frame reads as one at ten
// millimetres too.
func TestPictogramsKeepToTheirFrame(t *testing.T) {
	th := fixture.Theme(t)
	ctx := browser.Open(t)
	const side, margin = 400, 8 // px; the margin is the browser's own
	files := map[string][]byte{}
	home := serve(t, files)
	for _, code := range []string{"GHS01", "GHS02", "GHS03", "GHS04", "GHS05", "GHS06", "GHS07", "GHS08", "GHS09"} {
		files[code+".html"] = []byte(`<!doctype html><svg width="400" height="400" viewBox="0 0 100 100">` + string(th.Symbols[code].Body) + `</svg>`)
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(side+2*margin, side+4*margin), chromedp.Navigate(home+code+".html")); err != nil {
			t.Fatal(err)
		}
		shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
		if err != nil {
			t.Fatal(err)
		}
		img, _, err := image.Decode(bytes.NewReader(shot))
		if err != nil {
			t.Fatal(err)
		}
		var dark []string
		figure := 0
		for y := range side {
			for x := range side {
				r, g, b, _ := img.At(x+margin, y+margin).RGBA()
				if r+g+b > 3*0x8000 {
					continue
				}
				fx, fy := (float64(x)+.5)*100/side, (float64(y)+.5)*100/side
				d := math.Abs(fx-50) + math.Abs(fy-50)
				if d < 38 {
					figure++
				}
				if d > 38.2 && d < 40 {
					dark = append(dark, draw.MM(fx)+" "+draw.MM(fy))
				}
			}
		}
		if figure < side*side/40 {
			t.Errorf("%s: there is no figure in the frame", code)
		}
		if len(dark) > 0 {
			t.Errorf("%s touches its frame at %s", code, strings.Join(dark[:min(len(dark), 3)], ", "))
		}
	}
}
