package main

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"
)

type completionCmd struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

func (completionCmd) example() string { return "source <(sockwright completion bash)" }

// Run prints a script that knows the commands and flags of this very program.
func (c *completionCmd) Run(t *terminal, parser *kong.Kong) error {
	var commands []string
	flags := map[string][]string{}
	for _, n := range parser.Model.Children {
		commands = append(commands, n.Name)
		for _, group := range n.AllFlags(true) {
			for _, f := range group {
				flags[n.Name] = append(flags[n.Name], "--"+f.Name)
			}
		}
	}
	var b strings.Builder
	switch c.Shell {
	case "fish":
		for _, n := range parser.Model.Children {
			fmt.Fprintf(&b, "complete -c sockwright -n __fish_use_subcommand -a %s -d '%s'\n", n.Name, strings.ReplaceAll(n.Help, "'", `\'`))
			for _, f := range flags[n.Name] {
				fmt.Fprintf(&b, "complete -c sockwright -n '__fish_seen_subcommand_from %s' -l %s\n", n.Name, strings.TrimPrefix(f, "--"))
			}
		}
	default:
		if c.Shell == "zsh" {
			b.WriteString("autoload -U +X bashcompinit && bashcompinit\n")
		}
		b.WriteString("_sockwright() {\n  local word=\"${COMP_WORDS[COMP_CWORD]}\" words=\"\"\n  if [ \"$COMP_CWORD\" -eq 1 ]; then\n")
		fmt.Fprintf(&b, "    words=\"%s\"\n  else\n    case \"${COMP_WORDS[1]}\" in\n", strings.Join(commands, " "))
		for _, name := range commands {
			fmt.Fprintf(&b, "      %s) words=\"%s\" ;;\n", name, strings.Join(flags[name], " "))
		}
		b.WriteString("    esac\n  fi\n  COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n}\ncomplete -o default -F _sockwright sockwright\n")
	}
	_, err := fmt.Fprint(t.out, b.String())
	return err
}
