using BenchmarkDotNet.Running;
using Trimwright.Benchmarks;

// dotnet run -c Release --project tools/Trimwright.Benchmarks -- --filter '*'   : times in process
// dotnet run -c Release --project tools/Trimwright.Benchmarks -- memory         : peak memory of 1,000 fits
if (args is ["memory"])
{
    return MemoryOfManyFits.Run();
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
return 0;
