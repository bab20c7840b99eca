using System.Reflection;
using System.Runtime.Loader;
using Trimwright.Drawing;

namespace Trimwright.Tests.Drawing;

/// <summary>The engine loaded once more, as on a machine that lacks every native library, with a record of what it loads.</summary>
internal sealed class BareMachine : AssemblyLoadContext, IDisposable
{
    private readonly AssemblyDependencyResolver _resolver = new(typeof(BareMachine).Assembly.Location);

    public BareMachine()
        : base(isCollectible: true)
    {
    }

    public IEnumerable<string> Loaded => Assemblies.Select(assembly => assembly.GetName().Name ?? "");

    public void Dispose() => Unload();

    public (bool Written, string? Problem) TryWritePng(string svg, int dotsPerInch)
    {
        var writer = LoadFromAssemblyName(typeof(PngWriter).Assembly.GetName()).GetType(typeof(PngWriter).FullName!)!;
        object?[] arguments = [svg, dotsPerInch, null, null];
        var written = (bool)writer.GetMethod(nameof(PngWriter.TryWrite))!.Invoke(null, arguments)!;
        return (written, (string?)arguments[3]);
    }

    /// <summary>Calls a public static method without parameters of a class of these tests, loaded here.</summary>
    public T Call<T>(Type type, string method) =>
        (T)LoadFromAssemblyName(type.Assembly.GetName()).GetType(type.FullName!)!.GetMethod(method)!.Invoke(null, null)!;

    public string WriteMeasuredSvg(string name)
    {
        var here = LoadFromAssemblyName(typeof(SampleCards).Assembly.GetName()).GetType(typeof(SampleCards).FullName!)!;
        return (string)here.GetMethod(nameof(SampleCards.MeasuredSvg), BindingFlags.Static | BindingFlags.Public)!.Invoke(null, [name])!;
    }

    protected override Assembly? Load(AssemblyName assemblyName) =>
        _resolver.ResolveAssemblyToPath(assemblyName) is { } path && IsOurs(path) ? LoadFromAssemblyPath(path) : null;

    protected override nint LoadUnmanagedDll(string unmanagedDllName) =>
        throw new DllNotFoundException($"{unmanagedDllName} is not on this machine");

    /// <summary>What comes with the project is loaded anew; the framework is shared.</summary>
    private static bool IsOurs(string path) => Path.GetDirectoryName(path) == AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar);
}
