// Says in words where a count lies against its bar.
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Syntax;

namespace ChordLang.Arrangement.Binding;

/// <summary>Sentences about counts.</summary>
internal static class Counting
{
    /// <summary>Why an offset lies outside a bar, and what to do.</summary>
    public static string Outside(Bar bar, Rational offset)
    {
        var count = CountSyntax.Write(offset);
        if (offset < bar.From)
            return $"This bar is a pickup and begins on count {CountSyntax.Write(bar.From)}, so count {count} lies before it. Begin the pickup earlier, or move the sound.";
        if (bar.Length < bar.Settings.Meter.Length && bar.From == 0)
            return $"This bar ends before count {CountSyntax.Write(bar.OffsetOf(bar.End))}, where the pickup behind it begins, so it has no count {count}.";
        return $"A bar of {bar.Settings.Meter} has the counts 1 to {bar.Settings.Meter.Counts}, so count {count} lies outside it. Check the count, or move the sound to the next bar.";
    }
}
