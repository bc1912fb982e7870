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
		flags[n.Name] = flagsOf(n)
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
		// The command is the first word that is no flag. Flags are offered once a dash is
		// typed; else nothing, so that the shell completes names of files.
		b.WriteString("_sockwright() {\n  local word=\"${COMP_WORDS[COMP_CWORD]}\" command=\"\" words=\"\" i\n" +
			"  for ((i = 1; i < COMP_CWORD; i++)); do\n    case \"${COMP_WORDS[i]}\" in -*) ;; *) command=\"${COMP_WORDS[i]}\"; break ;; esac\n  done\n" +
			"  case \"$command:$word\" in\n")
		fmt.Fprintf(&b, "    :-*) words=\"%s\" ;;\n    :*) words=\"%s\" ;;\n", strings.Join(flagsOf(parser.Model.Node), " "), strings.Join(commands, " "))
		for _, n := range parser.Model.Children {
			fmt.Fprintf(&b, "    %s:-*) words=\"%s\" ;;\n", n.Name, strings.Join(flags[n.Name], " "))
			for _, p := range n.Positional {
				if p.Enum != "" {
					fmt.Fprintf(&b, "    %s:*) words=\"%s\" ;;\n", n.Name, strings.ReplaceAll(p.Enum, ",", " "))
				}
			}
		}
		b.WriteString("  esac\n  COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n}\ncomplete -o default -F _sockwright sockwright\n")
	}
	_, err := fmt.Fprint(t.out, b.String())
	return err
}

// flagsOf lists the flags that a command takes, those of the program included.
func flagsOf(n *kong.Node) []string {
	var list []string
	for _, group := range n.AllFlags(true) {
		for _, f := range group {
			list = append(list, "--"+f.Name)
		}
	}
	return list
}
