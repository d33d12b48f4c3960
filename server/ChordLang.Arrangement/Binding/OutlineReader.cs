// Walks the lines once and says which belong together.
using System.Collections.Immutable;
using ChordLang.Arrangement.Music;
using ChordLang.Grammar.Parsing;
using ChordLang.Grammar.Syntax;
using ChordLang.Grammar.Text;

namespace ChordLang.Arrangement.Binding;

/// <summary>Reads the outline of a tree.</summary>
internal sealed class OutlineReader
{
    private readonly SyntaxTree tree;
    private readonly TroubleList troubles;
    private readonly SettingReader settings;
    private readonly List<BarPlan> bars = [];
    private readonly List<SectionPlan> sections = [];
    private readonly Dictionary<string, int> sectionsByName = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<Step> steps = [];
    private readonly List<Expected> expectations = [];
    private readonly List<string> opening = [];
    private Settings? start;
    private BarPlan? bar;
    private SectionPlan? section;
    private (int Line, CountSyntax Count)? pickup;
    private bool sectionOpen, severalBars, againOpen, rowsTold;

    private OutlineReader(SyntaxTree tree, TroubleList troubles, Settings defaults) =>
        (this.tree, this.troubles, settings) = (tree, troubles, new(troubles, defaults));

    /// <summary>The outline of a tree; the defaults are in force where it says nothing.</summary>
    public static Outline Read(SyntaxTree tree, TroubleList troubles, Settings defaults)
    {
        var reader = new OutlineReader(tree, troubles, defaults);
        foreach (var i in tree.Numbers)
            reader.Line(i);
        reader.CloseSection();
        if (reader.pickup is { } left)
            troubles.Add(left.Line, TroubleCodes.MisplacedPickup, Whole(tree.Lines[left.Line]), "No bar follows this pickup. A pickup stands right before the bar that it shortens.");
        return new([.. reader.bars], [.. reader.sections], [.. reader.steps], AllowReader.Read(tree), [.. reader.expectations],
            [.. reader.opening], reader.settings, reader.start ?? reader.settings.Current);
    }

    private void Line(int i)
    {
        switch (tree.Lines[i])
        {
            case SettingLine setting:
                settings.Apply(setting, i);
                break;
            case SectionLine line:
                Section(line, i);
                break;
            case ChartLine chart:
                Chart(chart, i);
                break;
            case RowLine row:
                Row(row, i);
                break;
            case ProseLine prose:
                (sectionOpen ? section!.Prose : bars.Count > 0 ? bars[^1].Prose : opening).Add(prose.Words);
                break;
            case FormLine form:
                Form(form, i);
                break;
            case ExpectLine { Expectation: { } expectation } expect:
                expectations.Add(new(expectation, i, tree.Absolute(i, expect.Claim)));
                break;
        }
    }

    private void Chart(ChartLine chart, int i)
    {
        start ??= settings.Current;
        settings.Begin();
        if (againOpen)
        {
            var name = tree.Lines[sections[^1].Line] is SectionLine s ? s.Name : default;
            troubles.Add(sections[^1].Line, TroubleCodes.BarsUnderAgain, name,
                $"Section {sections[^1].Name} is played again as it stands above, and the bars below come after it. If they are meant to replace it, give them a section line with a name of their own.");
        }
        (sectionOpen, againOpen, rowsTold, severalBars) = (false, false, false, chart.Bars.Length > 1);
        foreach (var syntax in chart.Bars)
        {
            bar = new(i, syntax, settings.Current, pickup);
            pickup = null;
            steps.Add(new(StepKind.Bar, i, bars.Count));
            bars.Add(bar);
        }
    }

    private void Row(RowLine row, int i)
    {
        if (bar is null)
            troubles.Add(i, TroubleCodes.RowWithoutBar, Whole(row), bars.Count == 0
                ? "This row has no bar above it. Write a line that begins with | first; it may hold nothing else."
                : "This row has no bar right above it: a section or a word of the form stands between. Move the row up to its bar, or begin a bar with a line of |.");
        else if (!severalBars)
            bar.Rows.Add(i);
        else if (!rowsTold)
        {
            rowsTold = true;
            var (line, chart) = (bar.Line, (ChartLine)tree.Lines[bar.Line]);
            var at = tree.Source.Lines[line].Start;
            // A break before each bar but the first; the row then stands under the last.
            var edits = chart.Bars.Skip(1).Select(b => new TextEdit(new(b.BarLine.Start + at, 0), "\n")).ToImmutableArray();
            troubles.Add(new Trouble(TroubleCodes.RowsUnderSeveralBars, tree.Absolute(i, Whole(row)),
                $"The line above holds {chart.Bars.Length} bars, so nobody can tell which of them this row belongs to. Give each bar a line of its own, and write the row under its bar.")
            {
                Fixes = [new("Give each bar a line of its own", false, edits)],
                Related = [new("These bars", tree.Absolute(line, Whole(chart)), null)],
            });
        }
    }

    private void Section(SectionLine line, int i)
    {
        CloseSection();
        (bar, againOpen) = (null, false);
        var name = line[line.Name].Trim();
        var before = sectionsByName.TryGetValue(name, out var first) ? sections[first] : null;
        if (line.Again && name.Length > 0)
        {
            if (before is null)
                UnknownSection(line, i, name);
            else
            {
                section = new(name, i, before.FirstBar, steps.Count, before) { BarCount = before.BarCount, EndStep = steps.Count };
                steps.Add(new(StepKind.Again, i, first));
                (sectionOpen, againOpen) = (true, true);
                sections.Add(section);
                return;
            }
        }
        else if (before is not null)
            troubles.Add(new Trouble(TroubleCodes.DoubledSection, tree.Absolute(i, line.Name),
                $"There is a section {name} already, in line {before.Line + 1}. If it is played again as it stands, write section {name} again, and no bars; if this is another part, give it another name.")
            {
                Related = [new("The first section of this name", tree.Absolute(before.Line, ((SectionLine)tree.Lines[before.Line]).Name), null)],
            });
        if (name.Length > 0)
            sectionsByName.TryAdd(name, sections.Count);
        section = new(name, i, bars.Count, steps.Count, null);
        sectionOpen = true;
        sections.Add(section);
    }

    private void UnknownSection(SectionLine line, int i, string name)
    {
        var nearest = Vocabulary.Nearest(name, sections.Where(s => s.Of is null).Select(s => s.Name));
        troubles.Add(i, TroubleCodes.UnknownSection, line.Name,
            $"No section {name} stands above, so it cannot be played again. " + (nearest is null ? "Check the name, or leave out the word again." : $"Did you mean {nearest}?"),
            nearest is null ? [] : [TroubleList.Replace($"Write {nearest}", line.Name, nearest)]);
    }

    private void CloseSection()
    {
        if (section is { Of: null })
            (section.BarCount, section.EndStep) = (bars.Count - section.FirstBar, steps.Count);
        section = null;
        sectionOpen = false;
    }

    private void Form(FormLine form, int i)
    {
        (bar, againOpen) = (null, false);
        if (form.Kind != FormKind.Pickup)
            steps.Add(new(StepKind.Word, i, 0, form.Kind, form.Number));
        else if (form.Count is { } count)
        {
            if (pickup is { } other)
                troubles.Add(other.Line, TroubleCodes.MisplacedPickup, Whole(tree.Lines[other.Line]), "Another pickup follows before any bar. Keep the one that is meant.");
            pickup = (i, count);
        }
    }

    /// <summary>A line without the blanks around it.</summary>
    public static Span Whole(LineSyntax line) =>
        line.Tokens is [var first, .., var last] ? first.Span.Join(last.Span) : line.Tokens is [var only] ? only.Span : new(0, line.Text.Length);
}
