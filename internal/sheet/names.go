package sheet

// Names lists the sheets that can be asked for, in the order of the packet.
func Names() []string { return sheetNames() }
