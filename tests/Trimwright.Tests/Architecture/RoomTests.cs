using ArchUnitNET.Domain;
using ArchUnitNET.Fluent;
using ArchUnitNET.Loader;
using Trimwright.Measures;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace Trimwright.Tests.Architecture;

/// <summary>The table of rooms in docs/architecture.md: which room may know which.</summary>
public class RoomTests
{
    private static readonly ArchUnitNET.Domain.Architecture Engine = new ArchLoader().LoadAssemblies(typeof(Length).Assembly).Build();

    private static readonly Dictionary<string, string[]> MayKnow = new()
    {
        ["Measures"] = [],
        ["Geometry"] = ["Measures"],
        ["Diagnostics"] = ["Measures"],
        ["Images"] = ["Measures", "Geometry", "Diagnostics"],
        ["Solving"] = ["Measures", "Diagnostics"],
        ["Cutting"] = ["Measures"],
        ["Layouts"] = ["Measures", "Geometry", "Diagnostics", "Images"],
        ["Fitting"] = ["Measures", "Geometry", "Diagnostics", "Images", "Solving", "Layouts"],
        ["Variants"] = ["Measures", "Geometry", "Diagnostics", "Layouts", "Fitting"],
        ["Trimming"] = ["Measures", "Geometry", "Diagnostics", "Layouts", "Fitting"],
        ["Balance"] = ["Measures", "Geometry", "Diagnostics", "Images", "Layouts", "Fitting", "Variants", "Trimming"],
        ["Batches"] = ["Measures", "Geometry", "Diagnostics", "Layouts", "Fitting", "Variants", "Trimming", "Cutting"],
        ["Drawing"] = ["Measures", "Geometry", "Diagnostics", "Images", "Layouts", "Fitting", "Variants", "Trimming", "Balance", "Cutting", "Batches"],
        ["Worksheets"] = ["Measures", "Geometry", "Diagnostics", "Images", "Layouts", "Fitting", "Variants", "Trimming", "Cutting", "Batches", "Drawing"],
    };

    public static TheoryData<string, string> ForbiddenPairs()
    {
        var pairs = new TheoryData<string, string>();
        foreach (var (room, known) in MayKnow)
        {
            foreach (var other in MayKnow.Keys.Where(other => other != room && !known.Contains(other)))
            {
                pairs.Add(room, other);
            }
        }

        return pairs;
    }

    [Theory]
    [MemberData(nameof(ForbiddenPairs))]
    public void A_room_knows_only_the_rooms_of_its_row(string room, string other)
    {
        IArchRule rule = Types().That().ResideInNamespaceMatching($@"^Trimwright\.{room}(\.|$)")
            .Should().NotDependOnAny(Types().That().ResideInNamespaceMatching($@"^Trimwright\.{other}(\.|$)"));
        Assert.True(rule.HasNoViolations(Engine), string.Join('\n', rule.Evaluate(Engine).Where(result => !result.Passed)));
    }

    [Fact]
    public void Every_type_of_the_engine_lives_in_a_room()
    {
        var homeless = typeof(Length).Assembly.GetTypes()
            .Where(type => type.Namespace is { } name && name.StartsWith("Trimwright", StringComparison.Ordinal))
            .Where(type => !MayKnow.Keys.Any(room =>
                type.Namespace == $"Trimwright.{room}" || type.Namespace!.StartsWith($"Trimwright.{room}.", StringComparison.Ordinal)));
        Assert.Empty(homeless);
    }

    [Fact]
    public void The_engine_touches_neither_console_nor_files_nor_the_test_oracles()
    {
        IArchRule rule = Types().That().ResideInNamespaceMatching(@"^Trimwright\.")
            .Should().NotDependOnAny(Types(true).That().HaveFullNameMatching(@"^(System\.Console|System\.IO\.(File|Directory|FileStream)|Google\..*)$"));
        Assert.True(rule.HasNoViolations(Engine), string.Join('\n', rule.Evaluate(Engine).Where(result => !result.Passed)));
    }

    [Fact]
    public void One_file_alone_knows_the_polygon_library()
    {
        var knowing = Directory.EnumerateFiles(Repository.Path("src"), "*.cs", SearchOption.AllDirectories)
            .Where(file => File.ReadAllText(file).Contains("NetTopologySuite", StringComparison.Ordinal))
            .Select(file => Path.GetFileName(file));
        Assert.Equal(["PolygonLibrary.cs"], knowing);
    }

    /// <summary>By themselves its samples are others on every run.</summary>
    [Fact]
    public void One_file_alone_takes_samples_from_the_library_that_generates_them()
    {
        var taking = Directory.EnumerateFiles(Repository.Path("tests"), "*.cs", SearchOption.AllDirectories)
            .Where(file => File.ReadAllText(file).Contains(".Sample" + "(", StringComparison.Ordinal))
            .Select(file => Path.GetFileName(file));
        Assert.Equal(["Samples.cs"], taking);
    }

    [Fact]
    public void Structs_are_read_only()
    {
        var writable = typeof(Length).Assembly.GetExportedTypes()
            .Where(type => type.IsValueType && !type.IsEnum)
            .Where(type => !type.IsDefined(typeof(System.Runtime.CompilerServices.IsReadOnlyAttribute), inherit: false));
        Assert.Empty(writable);
    }

    [Fact]
    public void Lengths_never_pass_through_floating_point_outside_the_drawing_room()
    {
        System.Type[] banned = [typeof(double), typeof(float), typeof(decimal)];
        var members = typeof(Length).Assembly.GetExportedTypes()
            .Where(type => type.Namespace != "Trimwright.Drawing")
            .SelectMany(type => type.GetMembers())
            .Where(member => member switch
            {
                System.Reflection.PropertyInfo property => banned.Contains(property.PropertyType),
                System.Reflection.FieldInfo field => banned.Contains(field.FieldType),
                System.Reflection.MethodInfo method => banned.Contains(method.ReturnType)
                    || method.GetParameters().Any(parameter => banned.Contains(parameter.ParameterType)),
                _ => false,
            })
            .Select(member => $"{member.DeclaringType}.{member.Name}");
        Assert.Empty(members);
    }

    [Fact]
    public void The_table_in_the_documentation_is_the_table_of_this_test()
    {
        var page = File.ReadAllText(Repository.Path("docs", "architecture.md"));
        foreach (var (room, known) in MayKnow)
        {
            var row = page.Split('\n').Single(line => line.StartsWith($"| {room} |", StringComparison.Ordinal));
            var cell = row.Split('|')[4].Trim();
            Assert.Equal(known.Length == 0 ? "nothing else" : string.Join(", ", known), cell);
        }
    }
}
