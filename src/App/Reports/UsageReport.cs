using System.CommandLine;
using System.CommandLine.Parsing;

namespace Harkbook.App.Reports;

/// <summary>What is wrong with a command line, in one line, and where to read on.</summary>
internal static class UsageReport
{
    public static string Write(ParseResult parsed)
    {
        var command = parsed.CommandResult.Command;
        var name = command is RootCommand ? "" : command.Name + " ";
        return $"harkbook: {Message(parsed, command)}\nTry: harkbook {name}--help";
    }

    private static string Message(ParseResult parsed, Command command)
    {
        if (MistakenOption(parsed) is { } option)
            return $"{option} is no option {(command is RootCommand ? "of harkbook" : $"of '{command.Name}'")}. Its options are "
                + $"{Known(command.Options.Select(o => o.Name))}";
        if (command is RootCommand)
            return $"{(parsed.UnmatchedTokens is [var word, ..] ? $"'{word}' is no command" : "no command was given")}. The commands are "
                + $"{Known(command.Subcommands.Select(c => c.Name))}";
        return Message(parsed.Errors[0]) ?? (parsed.UnmatchedTokens is [var left, ..]
            ? $"'{left}' is one word too many for '{command.Name}'. Put names with blanks in quotes."
            : parsed.Errors[0].Message);
    }

    /// <summary>A word that was meant as an option but would be taken for a file's name; behind a lone -- it is one.</summary>
    public static string? MistakenOption(ParseResult parsed) =>
        parsed.Tokens.TakeWhile(t => t.Type != TokenType.DoubleDash)
            .FirstOrDefault(t => t.Type == TokenType.Argument && t.Value.StartsWith("--", StringComparison.Ordinal))?.Value;

    private static string? Message(ParseError error) => error.SymbolResult switch
    {
        ArgumentResult { Argument: var argument, Tokens.Count: 0, Parent: CommandResult } => $"<{argument.Name}> is missing. {Sentence(argument)}",
        OptionResult { Option: var option, Tokens.Count: 0 } => $"{option.Name} needs a value. {Sentence(option)}",
        ArgumentResult { Parent: OptionResult { Option: var option, Tokens: [var token, ..] } } => Misread(option, token.Value),
        OptionResult { Option: var option, Tokens: [var token, ..] } => Misread(option, token.Value),
        _ => null,
    };

    private static string Misread(Option option, string text) =>
        $"{option.Name} {text}: give {(option.ValueType == typeof(int) ? "a whole number" : option.ValueType == typeof(double) ? "a number" : "one value")}. "
            + $"{Sentence(option)}";

    private static string Sentence(Symbol symbol) => symbol.Description!.TrimEnd(' ', '…') + ".";

    private static string Known(IEnumerable<string> names) => string.Join(", ", names) + ".";
}
