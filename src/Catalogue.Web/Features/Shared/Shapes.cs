using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>The shapes that say a verdict without colour: a disc with a tick, a triangle with a bar, a square with a cross, a ring of dots.</summary>
/// <remarks>Paths in a box of 20 × 20, cut out with the even-odd rule, so that one colour is enough.</remarks>
internal static class Shapes
{
    private const string Disc = "M10 1a9 9 0 1 0 0 18a9 9 0 1 0 0-18zM4.500 10.600l1.500-1.500 2.600 2.600 5.300-6.200 1.600 1.400-6.800 7.900z";
    private const string Triangle = "M10 1.300L19.500 18.300H.5zM9 7.500h2v5.500H9zM9 14.300h2v2H9z";
    private const string Square = "M1.500 1.500h17v17h-17zM5.800 7.300L7.300 5.800 10 8.500l2.700-2.700 1.500 1.500L11.500 10l2.700 2.700-1.500 1.500L10 11.500l-2.700 2.700-1.500-1.500L8.500 10z";
    private const string Dots = "M8.800 1h2.400v3.400H8.800zM8.800 15.600h2.400V19H8.800zM1 8.800h3.400v2.400H1zM15.600 8.800H19v2.400h-3.400zM3.100 4.700l1.600-1.600 2.300 2.300-1.600 1.600zM13 14.600l1.600-1.600 2.300 2.300-1.600 1.600zM13 5.400l2.300-2.300 1.600 1.600-2.300 2.300zM3.100 15.300l2.300-2.300 1.600 1.600-2.300 2.300z";
    private const string Ring = "M10 3a7 7 0 1 0 0 14a7 7 0 1 0 0-14zM10 5.200a4.800 4.800 0 1 0 0 9.600a4.800 4.800 0 1 0 0-9.600zM8.400 8.400h3.200v3.200H8.400z";

    public static string Of(Verdict verdict) => Svg(verdict switch
    {
        Verdict.Suits => Disc,
        Verdict.Care => Triangle,
        Verdict.Unsuited => Square,
        _ => Dots,
    });

    public static string Of(Severity severity) => Svg(severity switch
    {
        Severity.Stop => Square,
        Severity.Care => Triangle,
        _ => Ring,
    });

    private static string Svg(string path) =>
        $"""<svg viewBox="0 0 20 20" aria-hidden="true" focusable="false"><path fill-rule="evenodd" d="{path}"/></svg>""";
}
