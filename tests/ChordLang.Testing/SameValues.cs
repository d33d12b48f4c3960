// Compares two values part by part, whatever they are made of: two results are the same only where everything that can be read of them is.
using System.Collections;
using System.Collections.Concurrent;
using System.Reflection;

namespace ChordLang.Testing;

/// <summary>Compares by public properties, elements and plain values.</summary>
public static class SameValues
{
    private static readonly ConcurrentDictionary<Type, PropertyInfo[]> Parts = [];

    /// <summary>Where two values first differ, as a path with both values; null where they do not.</summary>
    /// <param name="wanted">One.</param>
    /// <param name="got">The other.</param>
    /// <param name="leave">Types whose values are not looked into.</param>
    public static string? Differ(object? wanted, object? got, params IReadOnlyCollection<Type> leave)
    {
        if (ReferenceEquals(wanted, got))
            return null;
        if (wanted is null || got is null || wanted.GetType() != got.GetType())
            return $": {wanted ?? "null"} not {got ?? "null"}";
        var type = wanted.GetType();
        if (leave.Contains(type))
            return null;
        if (type.IsPrimitive || type.IsEnum || wanted is string or decimal)
            return wanted.Equals(got) ? null : $": {wanted} not {got}";
        if (wanted is IDictionary some && got is IDictionary others)
            return Elements(some.Keys.Cast<object>().Order().Select(k => some[k]), others.Keys.Cast<object>().Order().Select(k => others[k]), leave);
        if (wanted is IEnumerable one && got is IEnumerable other)
            return Elements(one.Cast<object?>(), other.Cast<object?>(), leave);
        foreach (var part in Parts.GetOrAdd(type, t => [.. t.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.GetIndexParameters().Length == 0)]))
            if (Differ(part.GetValue(wanted), part.GetValue(got), leave) is { } differ)
                return $".{part.Name}{differ}";
        return null;
    }

    private static string? Elements(IEnumerable<object?> wanted, IEnumerable<object?> got, IReadOnlyCollection<Type> leave)
    {
        var (one, other) = (wanted.ToList(), got.ToList());
        for (var i = 0; i < one.Count && i < other.Count; i++)
            if (Differ(one[i], other[i], leave) is { } differ)
                return $"[{i}]{differ}";
        return one.Count == other.Count ? null : $": {one.Count} not {other.Count} elements";
    }
}
