// A place in a line as Sprache takes it: one step is one word, and nothing is remembered between tries.
using Sprache;

namespace ChordLang.Grammar.Parsing;

/// <summary>The place before a word. <see cref="Position"/> counts UTF-16 units of the line, <see cref="Index"/> counts words.</summary>
internal sealed class At(Words words, int index) : IInput
{
    public Words Words => words;

    public int Index => index;

    public Word Word => words[index];

    public string Source => words.Plain;

    public bool AtEnd => index >= words.Count;

    public int Position => AtEnd ? Source.Length : words[index].Span.Start;

    public char Current => Source[Position];

    public int Line => 1;

    public int Column => Position + 1;

    // Only Parse.Ref asks for this, and no grammar here uses it: a remembered failure would throw.
    public IDictionary<object, object> Memos => new Dictionary<object, object>();

    public At Next => words.At(index + 1);

    public IInput Advance() => Next;

    public bool Equals(IInput? other) => ReferenceEquals(this, other);

    public override bool Equals(object? obj) => ReferenceEquals(this, obj);

    public override int GetHashCode() => index;
}
