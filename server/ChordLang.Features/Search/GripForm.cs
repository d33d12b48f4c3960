// Tells when two grips are one shape at two places of the neck.
using System.Collections.Immutable;
using System.Globalization;

namespace ChordLang.Features.Search;

/// <summary>The form of a grip: equal for grips that one hand shape gives along the neck. A grip with an open string cannot be moved, so its form is itself.</summary>
public static class GripForm
{
    /// <summary>The form of slots, lowest string first; null is a string that is not played.</summary>
    public static string Of(ImmutableArray<int?> slots)
    {
        // Strings are told from the highest one, so that a seventh string below does not make another shape of it.
        var sounding = slots.SkipWhile(s => s is null).ToImmutableArray();
        var least = sounding.Min() ?? 0;
        return least == 0 ? $"open {Written(sounding)}" : Written([.. sounding.Select(s => s - least)]);
    }

    /// <summary>Slots as the notation writes them.</summary>
    public static string Written(ImmutableArray<int?> slots) => string.Join('-', slots.Select(s => s?.ToString(CultureInfo.InvariantCulture) ?? "x"));
}
