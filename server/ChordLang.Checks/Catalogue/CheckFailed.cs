// Says that a check broke down, so that silence is never taken for a clean bill.
using ChordLang.Arrangement.Music;

namespace ChordLang.Checks.Catalogue;

/// <summary>Reports a check that threw; <see cref="CheckCatalogue.Run(Piece)"/> makes its findings.</summary>
public sealed class CheckFailed : Check
{
    /// <summary>Its name, which <see cref="Of"/> needs without an instance.</summary>
    public const string Name = "tool-check-failed";

    /// <inheritdoc/>
    public override string Code => Name;

    /// <inheritdoc/>
    public override string Title => "A check could not finish";

    /// <inheritdoc/>
    public override Severity Severity => Severity.Information;

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(Piece piece) => [];

    /// <summary>The finding for a check that threw.</summary>
    public static Finding Of(Check check, Exception fault) => new(
        Name, Severity.Information,
        $"The check {check.Code} broke down on this file ({fault.GetType().Name}: {fault.Message}), so what it looks for is unknown here. "
        + "The other checks ran. Please report it with the file.",
        new(0, 0));
}
