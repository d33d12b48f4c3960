// Keeps what was worked out last, from one version of a document to the next.
using ChordLang.Arrangement.Binding;

namespace ChordLang.Features.Lessons;

/// <summary>Goes along with a document: its music and its harmony as they were known last, of one version. Any thread may read and write it: what it holds is immutable.</summary>
public sealed class LessonMemory
{
    private volatile KeptHarmony? harmony;

    internal KeptHarmony? Harmony
    {
        get => harmony;
        set => harmony = value;
    }

    internal BindingMemory Music { get; } = new();
}
