// Measures what ChordLang promises of its speed: dotnet run -c Release --project tests/Benchmarks -- [editor|growth|library|inside|place|sheet|soak|all] [--short] [--peers FOLDER] [--write FILE] [PROGRAM [ARGUMENT …]]
using System.Globalization;

namespace ChordLang.Benchmarks;

internal static class Program
{
    private static readonly (string Name, Func<Options, int> Run)[] Measured =
    [
        ("editor", EditorFigures.Run),
        ("growth", GrowthFigures.Run),
        ("library", LibraryFigures.Run),
        ("inside", InsideFigures.Run),
    ];

    private static int Main(string[] arguments)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        if (arguments is ["sheet", .. var program])
            return SheetFigures.Run(Options.Of(program));
        if (arguments is ["place"])
            return PlacementFigures.Run();
        if (arguments is ["soak", .. var soak])
            return Soaking.Soak.Run(soak);
        var all = arguments is ["all", ..];
        var named = Measured.FirstOrDefault(m => arguments is [var first, ..] && m.Name == first);
        if (Options.Of(all || named.Name is not null ? arguments[1..] : arguments) is not { } options)
        {
            Console.Error.WriteLine($"usage: place, sheet, soak [--minutes N | --rounds N] PROGRAM [ARGUMENT …], or [{string.Join('|', Measured.Select(m => m.Name))}|all] [--short] [--peers node_modules/.bin …] [--write DEVELOPERS.md] [PROGRAM [ARGUMENT …]]\nWithout PROGRAM it is what .artifacts holds, compiled ahead of time where it is there (bash tests/Native/run).");
            return 2;
        }
        return all ? Measured.Select(m => m.Run(options)).ToList().Max() : (named.Run ?? EditorFigures.Run)(options);
    }
}
