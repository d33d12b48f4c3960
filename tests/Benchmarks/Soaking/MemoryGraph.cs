// The memory of a server over the time of a soak: measured samples, the verdict on them, and a picture.
using System.Globalization;
using System.Text;

namespace ChordLang.Benchmarks.Soaking;

/// <summary>What was measured: minutes since the beginning, and megabytes.</summary>
internal sealed class MemoryGraph
{
    private const double Width = 960, Height = 360, Left = 60, Top = 20, Right = 20, Bottom = 44;
    private readonly List<(double Minute, double Megabytes)> samples = [];
    private readonly List<double> crashes = [];
    private readonly Lock order = new();

    /// <summary>One more sample; what is not a number is none.</summary>
    public void Add(double minute, double megabytes)
    {
        if (double.IsNaN(megabytes))
            return;
        lock (order)
            samples.Add((minute, megabytes));
    }

    /// <summary>A client crashed then.</summary>
    public void Crash(double minute)
    {
        lock (order)
            crashes.Add(minute);
    }

    /// <summary>What a share of the samples from one minute to another is below; not a number where there are none.</summary>
    public double Quantile(double share, double from, double to)
    {
        lock (order)
            return samples.Where(s => s.Minute >= from && s.Minute <= to).Select(s => s.Megabytes).Order().ToList() is { Count: > 0 } all ? all[(int)(all.Count * share)] : double.NaN;
    }

    /// <summary>The least and the most of what was measured from a minute on.</summary>
    public (double Least, double Most) Range(double from)
    {
        lock (order)
            return samples.Where(s => s.Minute >= from).Select(s => s.Megabytes).DefaultIfEmpty(double.NaN).ToList() is var all ? (all.Min(), all.Max()) : default;
    }

    /// <summary>Writes memory.svg and memory.txt, with the minute from which the verdict counts marked.</summary>
    public void Write(string folder, double warm, string verdict)
    {
        Directory.CreateDirectory(folder);
        lock (order)
        {
            File.WriteAllText(Path.Combine(folder, "memory.txt"), verdict + "\n\nminute megabytes\n" + string.Concat(samples.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Minute:0.00} {s.Megabytes:0.0}\n"))));
            File.WriteAllText(Path.Combine(folder, "memory.svg"), Svg(warm, verdict));
        }
    }

    private string Svg(double warm, string verdict)
    {
        var (last, most) = (Math.Max(0.1, samples.Select(s => s.Minute).DefaultIfEmpty(1).Max()), Math.Max(10, samples.Select(s => s.Megabytes).DefaultIfEmpty(1).Max() * 1.1));
        double X(double minute) => Left + (Width - Left - Right) * minute / last;
        double Y(double megabytes) => Height - Bottom - (Height - Top - Bottom) * megabytes / most;
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {Height}\" font-family=\"sans-serif\" font-size=\"12\">\n<title>{verdict}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n");
        for (var i = 0; i <= 5; i++)
        {
            svg.Append(CultureInfo.InvariantCulture, $"<line x1=\"{Left}\" x2=\"{Width - Right}\" y1=\"{Y(most * i / 5):0.0}\" y2=\"{Y(most * i / 5):0.0}\" stroke=\"#ddd\"/><text x=\"{Left - 6}\" y=\"{Y(most * i / 5) + 4:0.0}\" text-anchor=\"end\">{most * i / 5:0}</text>\n");
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{X(last * i / 5):0.0}\" y=\"{Height - Bottom + 16}\" text-anchor=\"middle\">{last * i / 5:0.#}</text>\n");
        }
        svg.Append(CultureInfo.InvariantCulture, $"<line x1=\"{X(warm):0.0}\" x2=\"{X(warm):0.0}\" y1=\"{Top}\" y2=\"{Height - Bottom}\" stroke=\"#888\" stroke-dasharray=\"4 3\"/>\n");
        foreach (var minute in crashes)
            svg.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{X(minute):0.0}\" cy=\"{Height - Bottom}\" r=\"3\" fill=\"#b00\"/>\n");
        svg.Append("<polyline fill=\"none\" stroke=\"#036\" stroke-width=\"1.5\" points=\"").AppendJoin(' ', samples.Select(s => string.Create(CultureInfo.InvariantCulture, $"{X(s.Minute):0.0},{Y(s.Megabytes):0.0}"))).Append("\"/>\n");
        return svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Left}\" y=\"{Height - 8}\">Memory of the server in MB over minutes; dashed: from here on it may not grow; dots: a client crashed beside it. {verdict}</text>\n</svg>\n").ToString();
    }
}
