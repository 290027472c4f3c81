namespace Catalogue.Geometry.Spatial;

/// <summary>Runs work on all cores and waits for it; the first failure is thrown as itself, not wrapped.</summary>
internal static class Fork
{
    /// <summary>Runs <paramref name="work"/> once per core at the same time; the copies share out the pieces among themselves.</summary>
    public static void Join(Action work) => Run(Enumerable.Repeat(work, Environment.ProcessorCount).ToArray());

    public static void Both(Action first, Action second) => Run(first, second);

    private static void Run(params Action[] actions)
    {
        try
        {
            Parallel.Invoke(actions);
        }
        catch (AggregateException failures)
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(failures.InnerExceptions[0]);
        }
    }
}
