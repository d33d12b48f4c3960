// Watches the process that started us: an editor that crashed leaves no server behind.
using System.ComponentModel;
using System.Diagnostics;

namespace ChordLang.Server.Lsp;

internal static class Parent
{
    /// <summary>Ends when a process does.</summary>
    public static async Task Gone(int process)
    {
        try
        {
            using var parent = Process.GetProcessById(process);
            await parent.WaitForExitAsync().ConfigureAwait(false);
        }
        catch (Exception e) when (e is ArgumentException)
        {
            // It has gone already.
        }
        catch (Exception e) when (e is InvalidOperationException or Win32Exception or NotSupportedException)
        {
            // It may not be watched; the end of input will tell.
            await new TaskCompletionSource().Task.ConfigureAwait(false);
        }
    }
}
