package unit

// Amount is what a step adds: a mass or a volume. The zero value was left out.
type Amount struct {
	Mass   Quantity[Mass]
	Volume Quantity[Volume]
}

// Given reports whether the key was written.
func (a Amount) Given() bool { return a.Mass.Given() || a.Volume.Given() }

// Text returns the amount as written.
func (a Amount) Text() string { return a.Mass.Text() + a.Volume.Text() }

// UnmarshalText reads a mass or a volume.
func (a *Amount) UnmarshalText(b []byte) error {
	*a = Amount{}
	errMass := a.Mass.UnmarshalText(b)
	if errMass == nil {
		return nil
	}
	if a.Volume.UnmarshalText(b) == nil {
		return nil
	}
	return errMass
}
