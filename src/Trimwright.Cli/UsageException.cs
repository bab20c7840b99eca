namespace Trimwright.Cli;

/// <summary>A call that cannot be carried out as asked; the message says why and what to do.</summary>
public sealed class UsageException : Exception
{
    /// <summary>Makes one with a message for the user.</summary>
    public UsageException(string message)
        : base(message)
    {
    }

    /// <summary>Makes one with the cause.</summary>
    public UsageException(string message, Exception cause)
        : base(message, cause)
    {
    }

    /// <summary>Makes one without a message.</summary>
    public UsageException()
    {
    }
}
