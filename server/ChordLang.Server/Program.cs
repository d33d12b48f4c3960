// The way in: hands the arguments to a command.
using ChordLang.Server.Cli;

return CommandLine.Run(args, Terminal.OfProcess());
