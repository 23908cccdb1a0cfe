package main

// schemaCommand prints the JSON Schema of a job file.
type schemaCommand struct{}

// Run prints the schema; point an editor for TOML to it, and it completes keys and checks values while they are typed.
func (schemaCommand) Run(s streams) error {
	keys, err := loadKeys()
	if err != nil {
		return err
	}
	text, err := keys.Schema()
	if err != nil {
		return err
	}
	_, err = s.out.Write(text)
	return err
}
