namespace Catalogue.Web.Features.Shared;

/// <summary>From which distance between the surfaces of two revisions a place counts as changed, mm: pictures and the viewer colour it alike.</summary>
internal static class ChangeSteps
{
    /// <summary>Far off, whatever prints it.</summary>
    public const double ClearlyMovedMm = 0.5;

    /// <summary>About what a process may miss by.</summary>
    public const double MovedMm = 0.1;

    /// <summary>Below it is the rounding of files.</summary>
    public const double TouchedMm = 0.02;

    /// <summary>1 = far off, 2 = moved, 3 = touched, 0 = where it was.</summary>
    public static byte KindOf(double distanceMm) => distanceMm >= ClearlyMovedMm ? (byte)1 : distanceMm >= MovedMm ? (byte)2 : distanceMm >= TouchedMm ? (byte)3 : (byte)0;
}
