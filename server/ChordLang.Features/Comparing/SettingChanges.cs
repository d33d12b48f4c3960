// Tells what is in force otherwise: once, where it begins.
using System.Globalization;
using ChordLang.Arrangement.Music;

namespace ChordLang.Features.Comparing;

/// <summary>Compares what is in force.</summary>
internal static class SettingChanges
{
    /// <summary>The settings that begin to differ, over bars that belong together.</summary>
    public static IEnumerable<Change> Of(Piece old, Piece now, IReadOnlyList<(BarMusic Old, BarMusic New)> pairs)
    {
        var known = new Dictionary<string, (string?, string?)>(StringComparer.Ordinal);
        var states = pairs.Select(p => (p.Old.Bar.Settings, p.New.Bar.Settings, Bar: (Bar?)p.New.Bar, p.New.Section?.Name)).ToList();
        if (states.Count == 0 || states[0].Bar!.Index > 0)
            states.Insert(0, (old.Settings, now.Settings, null, null));
        foreach (var (was, left, bar, section) in states)
            foreach (var ((what, a), (_, b)) in Values(was).Zip(Values(left)))
            {
                var told = known.GetValueOrDefault(what, default);
                if (a == b)
                    known.Remove(what);
                else if (told != (a, b))
                {
                    known[what] = (a, b);
                    yield return bar is { Index: > 0 } ? new(bar.Number, section, ChangeKind.Setting, $"from here on {Say(what, a, b)}") : new(null, null, ChangeKind.Setting, Say(what, a, b));
                }
            }
    }

    /// <summary>"key C major became Eb major".</summary>
    public static string Say(string what, string? old, string? now) =>
        string.IsNullOrEmpty(old) ? $"{what} {now} put in" : string.IsNullOrEmpty(now) ? $"{what} {old} taken out" : $"{what} {old} became {now}";

    private static IEnumerable<(string What, string? Value)> Values(Settings s) =>
    [
        ("key", s.Key?.ToString()), ("meter", s.Meter.ToString()), ("strings", s.Neck.Tuning.ToString()), ("capo", s.Neck.Capo == 0 ? null : $"{s.Neck.Capo}"), ("feel", s.Feel),
        ("tempo", (s.Rubato ? "rubato " : "") + s.BeatsPerMinute?.ToString(CultureInfo.InvariantCulture) is var tempo && tempo.Trim() is { Length: > 0 } written ? written : null),
    ];
}
