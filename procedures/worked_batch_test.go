package procedures_test

// The examples of what is worked out for a batch and for what is bought by volume.
func init() {
	workedExamples = append(workedExamples, []worked{
		{formula: "more.silver", in: []float64{4.0, 3.04, 1000, 0.2223}, want: 4, tol: 0.5, from: "worked examples E3 and E7: of 4.0 g/L 3.04 are there, and a roll brings 0.2223"},
		{formula: "more.silver", in: []float64{4.0, 4.2, 1000, 0.2223}, want: 0, tol: 0.5, from: "plain arithmetic: past its limit not one more"},
		{formula: "more.area", in: []float64{1.8, 2000, 13176, 732}, want: 31, tol: 0.5, from: "the 49 of worked example F7, less 18"},
		{formula: "more.rolls", in: []float64{6, 1000, 3, 0.25}, want: 12, tol: 0.5, from: "common practice, no source: three rolls of six are left, four sheets each"},
		{formula: "more.count", in: []float64{20, 2000, 26}, want: 14, tol: 0.5, from: "plain arithmetic: 40 less 26"},
		{formula: "more.uses", in: []float64{5, 3}, want: 2, tol: 0.5, from: "plain arithmetic"},
		{formula: "rolls.held", in: []float64{3, 500}, want: 6, tol: 0.05, from: "plain arithmetic"},
		{formula: "shelf.wanted", in: []float64{350, 350}, want: 700, tol: 0.5, from: "plain arithmetic"},
		{formula: "shelf.part", in: []float64{950, 0.2}, want: 190, tol: 0.5, from: "plain arithmetic"},
		{formula: "shelf.stands", in: []float64{380, 120}, want: 500, tol: 0.5, from: "plain arithmetic"},
		{formula: "fix.used", in: []float64{3, 80, 75.0 / 45}, want: 400, tol: 0.5, from: "worked example E8: 45 s have become 75 s; a film that cleared in 80 s, three times over"},
		{formula: "month.pieces", in: []float64{24, 0.7, 1}, want: 16.8, tol: 0.05, from: "plain arithmetic: twenty-four of 0.7 are 16.8"},
		{formula: "month.share", in: []float64{2000, 0.2}, want: 400, tol: 0.5, from: "mass balance: 2 L at 1+4 take 400 ml"},
		{formula: "month.volume", in: []float64{400, 58}, want: 458, tol: 0.5, from: "plain arithmetic"},
		{formula: "order.missing.volume", in: []float64{150, 0.5, 3, 100, 140}, row: "I3 short"},
		{formula: "order.packs.volume", in: []float64{485, 250}, row: "I3 packs"},
		{formula: "liquid.share", in: []float64{1.25, 40, 60}, want: 300, tol: 0.5, from: "mass balance: of 1250 g in a litre two fifths are a liquid of 60 %"},
		{formula: "coat.one", in: []float64{500, 40}, want: 2, tol: 0.005, from: "first term of worked example G4: 40 ml/m² on 500 cm²"},
		{formula: "coat.sheets", in: []float64{20, 2, 15}, row: "G4 V"},
	}...)
}
