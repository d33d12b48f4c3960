// Holds every message that we send or read against the official TypeScript types of the Language Server Protocol.
using System.Collections;
using System.Diagnostics;
using System.Reflection;
using System.Text;
using System.Text.Json.Serialization;
using ChordLang.Server.Lsp;
using ChordLang.Server.Lsp.Protocol;
using ChordLang.Testing;

namespace ChordLang.Server.Tests.Lsp.Payloads;

public sealed class PayloadTests
{
    private const string Packages = "tests/External/node_modules/";

    // A room of features adds its list here.
    private static readonly Payload[] All = [.. BasicPayloads.All, .. ActionPayloads.All, .. FeaturePayloads.All];

    // Must not compile, or the compiler looks at nothing.
    private static readonly (string Official, string Json)[] Wrong =
    [
        ("lsp.Hover", """{"range":{"start":{"line":0,"character":0},"end":{"line":0,"character":0}}}"""),
        ("lsp.TextEdit[]", """[{"range":{"start":{"line":0,"character":0},"end":{"line":0,"char":0}},"newText":""}]"""),
        ("lsp.Diagnostic", """{"range":{"start":{"line":0,"character":0},"end":{"line":0,"character":0}},"message":"","severity":5}"""),
        ("lsp.InitializeResult", """{"capabilities":{"hoverProvidr":true}}"""),
        ("Part<lsp.HoverParams>", """{"document":{"uri":"a"}}"""),
    ];

    [Fact]
    [Trait("Needs", "npm")]
    public async Task Every_payload_is_of_its_official_type()
    {
        var folder = Repository.At(".artifacts/external/payloads");
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "tsconfig.json"), """
            {
              "compilerOptions": {
                "strict": true, "noEmit": true, "skipLibCheck": true, "target": "es2022", "module": "esnext", "moduleResolution": "bundler", "types": [],
                "paths": { "vscode-languageserver-protocol": ["../../../tests/External/node_modules/vscode-languageserver-protocol/lib/common/api.d.ts"] }
              },
              "files": ["payloads.ts"]
            }
            """);
        var text = new StringBuilder("""
            import * as lsp from "vscode-languageserver-protocol";
            type Part<T> = T extends readonly (infer U)[] ? Part<U>[] : T extends object ? { [K in keyof T]?: Part<T[K]> } : T;
            type Own = { [K: string]: unknown };

            """);
        for (var i = 0; i < All.Length; i++)
            text.Append($"export const p{i}: {(All[i].Sent ? All[i].Official : $"Part<{All[i].Official}>")} = {All[i].Json};\n");
        for (var i = 0; i < Wrong.Length; i++)
            text.Append($"// @ts-expect-error\nexport const w{i}: {Wrong[i].Official} = {Wrong[i].Json};\n");
        File.WriteAllText(Path.Combine(folder, "payloads.ts"), text.ToString());
        var compiler = Repository.At(Packages + "typescript/lib/tsc.js");
        Assert.True(File.Exists(compiler), $"{compiler} is missing: run tests/External/prepare");
        using var run = Process.Start(new ProcessStartInfo("node", [compiler, "-p", folder]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var error = run.StandardError.ReadToEndAsync();
        var said = await run.StandardOutput.ReadToEndAsync() + await error;
        await run.WaitForExitAsync();
        Assert.True(run.ExitCode == 0, said);
    }

    // A new record, or a new property of one, that no example holds would pass unseen.
    [Fact]
    public void Every_record_on_the_wire_has_an_example_with_all_that_it_can_hold()
    {
        var wanted = typeof(LspJson).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(JsonSerializerContext)) && t.Namespace!.StartsWith(typeof(LspJson).Namespace!, StringComparison.Ordinal))
            .SelectMany(t => t.GetCustomAttributesData()).Where(a => a.AttributeType == typeof(JsonSerializableAttribute))
            .Select(a => (Type)a.ConstructorArguments[0].Value!).Where(t => (t.IsGenericType ? t.GetGenericArguments()[^1] : t).Namespace == typeof(Hover).Namespace).ToList();
        Assert.Empty(wanted.Where(t => !All.Any(p => p.Type == t)).Select(t => t.ToString()));
        var (held, all) = (new HashSet<string>(), new HashSet<string>());
        foreach (var payload in All)
            Gather(payload.Value, held, all);
        Assert.Empty(all.Except(held).Order());
    }

    private static void Gather(object value, HashSet<string> held, HashSet<string> all)
    {
        if (value is string)
            return;
        if (value is IEnumerable list)
        {
            foreach (var item in list)
                if (item is not null)
                    Gather(item, held, all);
            return;
        }
        var type = value.GetType();
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(KeyValuePair<,>))
            Gather(type.GetProperty("Value")!.GetValue(value)!, held, all);
        if (type.Namespace != typeof(Hover).Namespace)
            return;
        foreach (var property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance))
        {
            all.Add($"{type.Name}.{property.Name}");
            if (property.GetValue(value) is not { } inner)
                continue;
            held.Add($"{type.Name}.{property.Name}");
            Gather(inner, held, all);
        }
    }
}
