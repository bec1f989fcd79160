"""A family of sections answered in microseconds: few fields span all of its cases, and a residual bounds the error."""
