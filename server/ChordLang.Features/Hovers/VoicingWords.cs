// The words for a voicing's kind and for its motion to the next, shared by hovers and the command line.

namespace ChordLang.Features.Hovers;

/// <summary>Voicings in words.</summary>
public static class VoicingWords
{
    /// <summary>A sentence that names kind and inversion.</summary>
    /// <param name="kind">As <see cref="Harmony.Voicings.VoicingShape.Kind"/> has it.</param>
    /// <param name="inversion">As <see cref="Harmony.Voicings.VoicingShape.Inversion"/> has it.</param>
    /// <param name="rootless">True where the root does not sound.</param>
    public static string Kind(string kind, int? inversion, bool rootless)
    {
        var lowest = inversion switch { 0 => ", root lowest", 1 => ", third lowest", 2 => ", fifth lowest", 3 => ", seventh or sixth lowest", _ => "" };
        return $"{(kind == "open" ? "An" : "A")} {kind} voicing{lowest}{(rootless && kind != "rootless" ? ", without its root" : "")}.";
    }

    /// <summary>A sentence that tells how a voicing moves to the next.</summary>
    /// <param name="common">Pitches that both hold.</param>
    /// <param name="moves">Semitones each voice moves, lowest first; empty where the number of voices differs.</param>
    /// <param name="motion">Motion of the outer voices.</param>
    public static string Motion(IReadOnlyList<string> common, IReadOnlyList<int> moves, string motion)
    {
        var held = common.Count == 0 ? "no tone stays" : $"{Say.List(common)} {(common.Count == 1 ? "stays" : "stay")}";
        var outer = motion == "none" ? "" : $"; the outer voices go in {motion} motion";
        var voices = moves.Count == 0 ? "" : moves.Distinct().Count() == 1 ? $"; every voice goes {Moved(moves[0])}" : $"; from the lowest voice up: {string.Join(", ", moves.Select(Moved))}";
        return $"To the next: {held}{outer}{voices}.";
    }

    private static string Moved(int semitones) => semitones switch
    {
        0 => "stays",
        1 or -1 => semitones > 0 ? "up a semitone" : "down a semitone",
        _ => $"{(semitones > 0 ? "up" : "down")} {Math.Abs(semitones)} semitones",
    };
}
