package plan

import "slices"

// WithoutCodes returns the plan with every code empty, so that nothing of a draft can be scanned. The lists of codes keep their
// lengths, one a unit.
func (p Plan) WithoutCodes() Plan {
	p.Wires, p.Cables, p.Trays = slices.Clone(p.Wires), slices.Clone(p.Cables), slices.Clone(p.Trays)
	p.Connectors, p.Joints = slices.Clone(p.Connectors), slices.Clone(p.Joints)
	for i := range p.Wires {
		p.Wires[i].Code = Code{}
	}
	for i := range p.Cables {
		p.Cables[i].Code = Code{}
	}
	p.Tags = slices.Clone(p.Tags)
	for i := range p.Tags {
		p.Tags[i].Code = Code{}
	}
	for i := range p.Trays {
		p.Trays[i].Code = Code{}
	}
	for i := range p.Joints {
		p.Joints[i].Codes = make([]Code, len(p.Joints[i].Codes))
	}
	for i := range p.Connectors {
		c := &p.Connectors[i]
		c.Codes, c.Cavities = make([]Code, len(c.Codes)), slices.Clone(c.Cavities)
		for k := range c.Cavities {
			c.Cavities[k].Codes = make([]Code, len(c.Cavities[k].Codes))
		}
	}
	return p
}
