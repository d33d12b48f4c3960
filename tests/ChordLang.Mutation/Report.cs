// Adds up what was caught, per chord kind, and says what was left out.
namespace ChordLang.Mutation;

internal sealed class Report
{
    private readonly List<(string From, Mutant Mutant)> all = [];

    public void Add(string from, IEnumerable<Mutant> mutants) => all.AddRange(mutants.Select(m => (from, m)));

    /// <summary>Prints the tables and, where asked for, some of the slips that were missed.</summary>
    public void Print(TextWriter to, int list)
    {
        foreach (var group in all.GroupBy(m => m.From))
        {
            to.WriteLine($"\n{group.Key}: {group.Select(m => (m.Mutant.Symbol, m.Mutant.From)).Distinct().Count()} named voicings");
            foreach (var whole in (bool[])[false, true])
            {
                var moves = group.Select(m => m.Mutant).Where(m => m.Whole == whole).ToList();
                to.WriteLine(whole ? "\n  the whole voicing to a neighbouring string set" : "\n  one note by one or two frets");
                to.WriteLine($"  {"kind",-20} {"moves",6} {"same",6} {"jazz",7} {"fix 1st",8} {"strict",7} {"fix 1st",8}   (same: degrees do not differ, left out)");
                Row(to, "all", moves);
                foreach (var kind in moves.GroupBy(m => m.Kind).OrderByDescending(g => g.Count()))
                    Row(to, kind.Key, [.. kind]);
                foreach (var missed in moves.Where(m => m.Strict is { Caught: false }).Take(list))
                    to.WriteLine($"    strict missed  {missed.Symbol,-12} {missed.From,-16} → {missed.To}");
                foreach (var missed in moves.Where(m => whole && m.Jazz is { RightFixFirst: false }).Take(list))
                    to.WriteLine($"    jazz {(missed.Jazz!.Value.Caught ? "other fix" : "missed   ")} {missed.Symbol,-12} {missed.From,-16} → {missed.To}");
            }
        }
    }

    private static void Row(TextWriter to, string kind, List<Mutant> moves)
    {
        var (jazz, strict) = (moves.Select(m => m.Jazz).OfType<Outcome>().ToList(), moves.Select(m => m.Strict).OfType<Outcome>().ToList());
        to.WriteLine($"  {kind,-20} {moves.Count,6} {moves.Count(m => m.Same),6} {Share(jazz, o => o.Caught),7} {Share(jazz, o => o.RightFixFirst),8} "
            + $"{Share(strict, o => o.Caught),7} {Share(strict, o => o.RightFixFirst),8}   {(strict.Count < moves.Count(m => !m.Same) ? $"{moves.Count(m => !m.Same) - strict.Count} under a warning before" : "")}");
    }

    private static string Share(List<Outcome> outcomes, Func<Outcome, bool> which) =>
        outcomes.Count == 0 ? "-" : $"{100.0 * outcomes.Count(which) / outcomes.Count:0.00}";
}
