// Tells when a stream ends, even while all who read it are busy with what came before.
namespace ChordLang.Server.Lsp;

/// <summary>A stream that is only read, with a task for its end.</summary>
internal sealed class EndingStream(Stream inner) : Stream
{
    // What was asked before the end is still answered, for so long.
    private static readonly TimeSpan Grace = TimeSpan.FromMilliseconds(500);

    private readonly TaskCompletionSource ended = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Ends a moment after the stream does.</summary>
    public Task Ended => Later();

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count) => Told(inner.Read(buffer, offset, count), count);

    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
        Told(await inner.ReadAsync(buffer, cancellationToken).ConfigureAwait(false), buffer.Length);

    public override async Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        await ReadAsync(buffer.AsMemory(offset, count), cancellationToken).ConfigureAwait(false);

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    private int Told(int read, int wanted)
    {
        if (read == 0 && wanted > 0)
            ended.TrySetResult();
        return read;
    }

    private async Task Later()
    {
        await ended.Task.ConfigureAwait(false);
        await Task.Delay(Grace).ConfigureAwait(false);
    }
}
