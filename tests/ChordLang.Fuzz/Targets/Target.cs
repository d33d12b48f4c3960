// What is fuzzed: how an input is made and damaged, and which property must hold of it.
using ChordLang.Fuzz.Generating;
using ChordLang.Testing;

namespace ChordLang.Fuzz.Targets;

/// <summary>A target.</summary>
/// <param name="Name">The word it is called by.</param>
/// <param name="Holds">What must hold, in words.</param>
/// <param name="Share">Its share of the cases of a run over all targets: so that none takes much longer than the others.</param>
/// <param name="Make">Makes an input. It may be kept, so it says all that a case needs.</param>
/// <param name="Run">Tries an input: null, or what broke.</param>
internal sealed record Target(string Name, string Holds, int Share, Func<Dice, string> Make, Func<string, string?> Run)
{
    /// <summary>Damages an input; another one is there to take from.</summary>
    public Func<Dice, string, string, string> Damage { get; init; } = (dice, text, other) => Mutations.Text(dice, text, other, Odds.Tokens);

    /// <summary>Inputs that no run leaves out.</summary>
    public IEnumerable<string> Traps { get; init; } = [];

    /// <summary>All of them.</summary>
    public static Target[] All { get; } =
    [
        .. GrammarTargets.All, .. EditTargets.All, .. CheckTargets.All, .. ExportTargets.All, .. ImportTargets.All, .. WordTargets.All, .. MergeTargets.All, .. TrafficTargets.All,
    ];

    /// <summary>Tries an input: null, or what broke. An exception is a fault too.</summary>
    public string? Try(string input)
    {
        try
        {
            return Run(input);
        }
#pragma warning disable CA1031 // Whatever comes out is what is looked for.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return $"crashed: {e}";
        }
    }
}
