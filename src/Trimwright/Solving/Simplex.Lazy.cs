using Trimwright.Measures;

namespace Trimwright.Solving;

/// <content>Rows that wait outside the tableau until a point breaks them: most rules of a layout never bite, and cost nothing then.</content>
internal sealed partial class Simplex
{
    private readonly List<WaitingRow> _waiting = [];

    /// <summary>A row; its variable is -1 while it waits.</summary>
    private readonly record struct WaitingRow(int[] Variables, Rational[] Factors, Rational? Least, Rational? Most, int Variable);

    /// <summary>How many rows were made to wait.</summary>
    public int WaitingCount => _waiting.Count;

    /// <summary>Adds a row that comes in when it is broken.</summary>
    public void AddWaitingRow(int[] variables, Rational[] factors, Rational? least, Rational? most) =>
        _waiting.Add(new(variables, factors, least, most, -1));

    /// <summary>Forgets the rows that were made to wait last; those that are in already stay.</summary>
    public void ForgetWaiting(int count) => _waiting.RemoveRange(count, _waiting.Count - count);

    /// <summary>Brings rows in: those that the point breaks, or all. False when none came.</summary>
    private bool BringIn(bool all)
    {
        var came = false;
        for (var i = 0; i < _waiting.Count; i++)
        {
            var row = _waiting[i];
            if (row.Variable < 0 && (all || IsBroken(row)))
            {
                _waiting[i] = row with { Variable = AddRow(row.Variables, row.Factors, row.Least, row.Most) };
                came = true;
            }
        }

        return came;
    }

    private bool IsBroken(in WaitingRow row)
    {
        Rational value = default;
        for (var i = 0; i < row.Variables.Length; i++)
        {
            value += row.Factors[i] * _value[row.Variables[i]];
        }

        return (row.Least is { } least && value < least) || (row.Most is { } most && value > most);
    }
}
