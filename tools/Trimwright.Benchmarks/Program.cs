using BenchmarkDotNet.Running;
using Trimwright.Benchmarks;

// dotnet run -c Release --project tools/Trimwright.Benchmarks -- --filter '*'   : times in process
// dotnet run -c Release --project tools/Trimwright.Benchmarks -- memory         : peak memory of 1,000 fits
// dotnet run -c Release --project tools/Trimwright.Benchmarks -- quality        : the solver's answers beside CP-SAT's best after 20 s
// dotnet run -c Release --project tools/Trimwright.Benchmarks -- first          : the first solve of a process
// dotnet run -c Release --project tools/Trimwright.Benchmarks -- plans          : plans of batches beside a plain program, with their bounds
switch (args)
{
    case ["memory"]:
        return MemoryOfManyFits.Run();
    case ["quality"]:
        return SolverQuality.Run(seconds: 20, seeds: 3);
    case ["plans"]:
        return PlanQuality.Run();
    case ["first"]:
        return SolverQuality.First();
    default:
        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
        return 0;
}
