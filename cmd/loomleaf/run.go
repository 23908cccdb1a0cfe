package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/sheet"
)

// streams is what the command reads and writes besides its files, and the faces that it prints in.
type streams struct {
	in       io.Reader
	out, err io.Writer
	terminal bool // a person watches err
	colour   bool // err shows colours
	metrics  page.Metrics
}

// commandLine is every command with its flags; their help texts are the help that is printed.
type commandLine struct {
	New      newCommand      `cmd:"" help:"Write a commented starter job that packets without change."`
	Check    checkCommand    `cmd:"" help:"Say what is wrong with jobs, each problem with its place."`
	Plan     planCommand     `cmd:"" help:"Print the plan of a job: lengths, marks, order of the run."`
	Marks    marksCommand    `cmd:"" help:"Print every mark, sleeve and label in the order of the run, for a line or a label printer."`
	Packet   packetCommand   `cmd:"" help:"Write the packet of jobs: sheets, labels and the map of codes."`
	Fit      fitCommand      `cmd:"" help:"Write the sheet that shows how labels land on their stock."`
	Pages    pagesCommand    `cmd:"" help:"Print the pages of a packet as text."`
	Read     readCommand     `cmd:"" help:"Say what a scanned or typed code names."`
	Exposure exposureCommand `cmd:"" help:"Print a worksheet on measured ultraviolet light, for the qualified person."`
	Explain  explainCommand  `cmd:"" help:"Say what a job file may hold: its tables, the keys of one, or all about a key."`
	Schema   schemaCommand   `cmd:"" help:"Print a JSON Schema of the job file, for editors that complete and check."`
	Version  versionCommand  `cmd:"" help:"Print the version."`
}

const description = `From one job file loomleaf computes the work on a wiring harness and prints its packet.

Start with "loomleaf new job.toml", then "loomleaf packet job.toml".
"-" stands for standard input or output where that makes sense.`

// stopped is what the command-line library's exit turns into, so that nothing below main ends the process.
type stopped struct{ code int }

// run is the whole command: arguments and streams in, exit code out.
func run(args []string, s streams) (code exitCode) {
	defer func() {
		if r := recover(); r != nil {
			stop, ours := r.(stopped)
			if !ours {
				panic(r)
			}
			code = exitCode(stop.code)
		}
	}()
	var err error
	if s.metrics, err = page.LoadMetrics(fonts.Files); err != nil {
		return report(s, err)
	}
	var cli commandLine
	parser, err := newParser(&cli, s)
	if err != nil {
		return report(s, err)
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	parsed, err := parser.Parse(args)
	if err != nil {
		return report(s, wrongUse(err.Error(), `"loomleaf --help" lists the commands and their flags`))
	}
	return report(s, parsed.Run(s))
}

func newParser(cli *commandLine, s streams) (*kong.Kong, error) {
	return kong.New(cli, kong.Name("loomleaf"), kong.Description(description), kong.Writers(s.out, s.err),
		kong.Exit(func(code int) { panic(stopped{code}) }), kong.Help(helpWithExitCodes),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}), kong.Bind(s),
		kong.Vars{"sheets": strings.Join(sheet.Names(), ", ")})
}

// helpWithExitCodes prints the library's help and the table of exit codes below it.
func helpWithExitCodes(options kong.HelpOptions, ctx *kong.Context) error {
	if err := kong.DefaultHelpPrinter(options, ctx); err != nil {
		return err
	}
	_, err := fmt.Fprintf(ctx.Stdout, "\n%s", exitTable())
	return err
}

// report prints an error and returns its exit code.
func report(s streams, err error) exitCode {
	if err == nil {
		return exitDone
	}
	var f failure
	errors.As(err, &f)
	if text := err.Error(); text != "" {
		fmt.Fprintf(s.err, "loomleaf: %s\n", text)
	}
	if f.hint != "" {
		fmt.Fprintf(s.err, "  hint: %s\n", f.hint)
	}
	return codeOf(err)
}
