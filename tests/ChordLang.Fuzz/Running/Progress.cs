// How far a worker is, in a file that outlives it: even a stack overflow leaves the input that caused it.
using System.IO.MemoryMappedFiles;

namespace ChordLang.Fuzz.Running;

/// <summary>The figures of a target, and the input that is being tried.</summary>
internal sealed class Progress : IDisposable
{
    private const int LongestInput = 1 << 21, Header = 64;

    private readonly MemoryMappedFile file;
    private readonly MemoryMappedViewAccessor view;

    /// <summary>Opens or makes the file.</summary>
    public Progress(string path)
    {
        file = MemoryMappedFile.CreateFromFile(path, FileMode.OpenOrCreate, null, Header + 2 * LongestInput);
        view = file.CreateViewAccessor();
    }

    /// <summary>How many cases have begun.</summary>
    public long Cases { get => view.ReadInt64(0); set => view.Write(0, value); }

    /// <summary>Processor time of all of them.</summary>
    public TimeSpan Spent { get => new(view.ReadInt64(8)); set => view.Write(8, value.Ticks); }

    /// <summary>Processor time of the slowest.</summary>
    public TimeSpan Slowest { get => new(view.ReadInt64(16)); set => view.Write(16, value.Ticks); }

    /// <summary>How many broke something.</summary>
    public int Broken { get => view.ReadInt32(24); set => view.Write(24, value); }

    /// <summary>How many inputs were kept for what they reach.</summary>
    public int Kept { get => view.ReadInt32(28); set => view.Write(28, value); }

    /// <summary>How many branches were reached.</summary>
    public int Places { get => view.ReadInt32(32); set => view.Write(32, value); }

    /// <summary>The input that is being tried.</summary>
    public string Input
    {
        get
        {
            var text = new char[view.ReadInt32(36)];
            view.ReadArray(Header, text, 0, text.Length);
            return new(text);
        }
        set
        {
            var length = Math.Min(value.Length, LongestInput);
            view.Write(36, length);
            view.WriteArray(Header, value.ToCharArray(), 0, length);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        view.Dispose();
        file.Dispose();
    }
}
