using System.CommandLine;
using Trimwright.Layouts;

namespace Trimwright.Cli.Commands;

/// <summary><c>drawer</c>: the built-in drawer, to copy and change.</summary>
internal static class DrawerCommand
{
    public static Command Create(Screen screen)
    {
        var command = new Command("drawer", """
            Print the drawer of tools that is used where you name none: trimmer increments, dies, foam. Save it, change it to your own
            tools, and name it with --drawer.

            Example: trimwright drawer > my-drawer.json
            """);
        command.SetAction(_ =>
        {
            screen.Output.Write(Drawer.DefaultText);
            return Program.Done;
        });
        return command;
    }
}
