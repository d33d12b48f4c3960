// Reads the tables of learnt weights that the models of this room share one format for.
using System.Collections.Frozen;
using System.Globalization;
using System.Reflection;

namespace ChordLang.Harmony.Weights;

/// <summary>Weights by feature name. Each table is an embedded text: lines of <c>name TAB weight</c>; a line that starts with <c>//</c> tells its origin.</summary>
public sealed class WeightTable
{
    private readonly FrozenDictionary<string, double> weights;

    private WeightTable(FrozenDictionary<string, double> weights) => this.weights = weights;

    /// <summary>Number of features that carry a weight.</summary>
    public int Count => weights.Count;

    /// <summary>The features that carry a weight.</summary>
    public IEnumerable<string> Names => weights.Keys;

    /// <summary>The weight of a feature; 0 where the table is silent.</summary>
    public double this[string feature] => weights.GetValueOrDefault(feature);

    /// <summary>The sum over features.</summary>
    public double Sum(IEnumerable<string> features)
    {
        var sum = 0.0;
        foreach (var feature in features)
            sum += weights.GetValueOrDefault(feature);
        return sum;
    }

    /// <summary>A table embedded in this assembly.</summary>
    /// <exception cref="InvalidOperationException">No such table: a fault of the build.</exception>
    public static WeightTable Load(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(name) ?? throw new InvalidOperationException($"no table {name}");
        using var reader = new StreamReader(stream);
        return Parse(reader.ReadToEnd());
    }

    /// <summary>Reads the text of a table.</summary>
    public static WeightTable Parse(string text)
    {
        var found = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var line in text.Split('\n'))
            if (!line.StartsWith("//", StringComparison.Ordinal) && line.IndexOf('\t') is > 0 and var tab)
                found[line[..tab]] = double.Parse(line.AsSpan(tab + 1), CultureInfo.InvariantCulture);
        return new(found.ToFrozenDictionary(StringComparer.Ordinal));
    }
}
