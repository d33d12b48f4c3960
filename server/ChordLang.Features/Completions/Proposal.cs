// What completion proposes: a text for a stretch, and what there is to say of it.
using ChordLang.Grammar.Text;

namespace ChordLang.Features.Completions;

/// <summary>What is proposed.</summary>
public enum ProposalKind
{
    /// <summary>A chord symbol.</summary>
    Chord,
    /// <summary>A degree in brackets, or the bass of a symbol.</summary>
    Part,
    /// <summary>A grip.</summary>
    Voicing,
    /// <summary>A shape by its name.</summary>
    Shape,
    /// <summary>A pitch.</summary>
    Pitch,
    /// <summary>A count.</summary>
    Count,
    /// <summary>A mark or a word that goes with one.</summary>
    Mark,
    /// <summary>A fixed word or sign of the notation.</summary>
    Word,
    /// <summary>A setting or another word that opens a line.</summary>
    Opener,
    /// <summary>The value of a setting or of a mark.</summary>
    Value,
    /// <summary>The label of a voice.</summary>
    Voice,
    /// <summary>The name of a section.</summary>
    Section,
    /// <summary>A file.</summary>
    File,
    /// <summary>The name of a check.</summary>
    Check,
}

/// <summary>A proposal. The list is in the order in which they should be shown.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">What is written.</param>
/// <param name="Replaces">The stretch that it takes the place of; on one line, and the cursor is in it.</param>
/// <param name="Detail">A few words beside it, or null.</param>
/// <param name="Snippet">The same with places to fill in, <c>${1:text}</c>, for clients that know how; or null.</param>
public sealed record Proposal(ProposalKind Kind, string Text, Span Replaces, string? Detail = null, string? Snippet = null);

/// <summary>What the library can tell that a lesson cannot.</summary>
public interface ILibraryNames
{
    /// <summary>The files that the lesson could use, as it would write them.</summary>
    IEnumerable<string> Files { get; }

    /// <summary>The tags that lessons bear, the frequent ones first.</summary>
    IEnumerable<string> Tags { get; }
}
