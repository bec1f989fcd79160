"""General-purpose libraries, set as their own documents advise, on the same sections."""
