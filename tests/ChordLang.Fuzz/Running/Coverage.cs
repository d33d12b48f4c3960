// Which places of our code a case reaches: the instrumented rooms count their branches in a map of this process.
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SharpFuzz.Common;

namespace ChordLang.Fuzz.Running;

/// <summary>The map of branches. Rooms that are not instrumented leave it empty; then every input is as good as the other.</summary>
internal sealed unsafe class Coverage
{
    private const int Size = 1 << 16;

    private readonly byte* map = (byte*)NativeMemory.AlignedAlloc(Size, 64);
    private readonly byte[] known = new byte[Size];

    /// <summary>Takes the place of the memory that a fuzzer of another process would share.</summary>
    public Coverage()
    {
        NativeMemory.Clear(map, Size);
        Trace.SharedMem = map;
    }

    /// <summary>How many branches were reached so far.</summary>
    public int Places { get; private set; }

    /// <summary>Before a case.</summary>
    public void Clear()
    {
        NativeMemory.Clear(map, Size);
        Trace.PrevLocation = 0;
    }

    /// <summary>True where the case reached a branch that none before it did, or one much more often.</summary>
    public bool IsNew()
    {
        var anew = false;
        for (var i = 0; i < Size; i += Vector256<byte>.Count)
            if (Vector256.LoadAligned(map + i) != Vector256<byte>.Zero)
                for (var k = i; k < i + Vector256<byte>.Count; k++)
                    if (map[k] != 0 && Often(map[k]) is var often && (known[k] & often) == 0)
                    {
                        Places += known[k] == 0 ? 1 : 0;
                        known[k] |= often;
                        anew = true;
                    }
        return anew;
    }

    // Counts in classes, one bit each: 1, 2, 3, 4 to 7, 8 to 15, 16 to 31, 32 to 127, more.
    private static byte Often(byte count) => count switch { 1 => 1, 2 => 2, 3 => 4, < 8 => 8, < 16 => 16, < 32 => 32, < 128 => 64, _ => 128 };
}
