package unit

// Error says what is wrong with a written quantity and how to mend it.
type Error struct {
	Code, What, Hint string
}

func (e *Error) Error() string { return e.What }

// FaultCode, FaultHint: read by the loader when it turns the error into a fault.
func (e *Error) FaultCode() string { return e.Code }

// FaultHint says how to mend it.
func (e *Error) FaultHint() string { return e.Hint }
