namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>Namespaces, relationship types and content types (core specification 1.4.0, appendix C; Open Packaging Conventions).</summary>
internal static class ThreeMfNames
{
    public const string Core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
    public const string Production = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06";
    public const string Materials = "http://schemas.microsoft.com/3dmanufacturing/material/2015/02";
    public const string TriangleSets = "http://schemas.microsoft.com/3dmanufacturing/trianglesets/2021/07";
    public const string BeamLattice = "http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02";

    public const string ModelRelationship = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";
    public const string PrintTicketRelationship = "http://schemas.microsoft.com/3dmanufacturing/2013/01/printticket";
    public const string Relationships = "http://schemas.openxmlformats.org/package/2006/relationships";

    public const string ContentTypes = "http://schemas.openxmlformats.org/package/2006/content-types";
    public const string ModelContentType = "application/vnd.ms-package.3dmanufacturing-3dmodel+xml";
    public const string RelationshipsContentType = "application/vnd.openxmlformats-package.relationships+xml";

    /// <summary>What the core's unit words stand for.</summary>
    public static LengthUnit? Unit(string word) => word switch
    {
        "micron" => LengthUnit.Micron,
        "millimeter" => LengthUnit.Millimetre,
        "centimeter" => LengthUnit.Centimetre,
        "inch" => LengthUnit.Inch,
        "foot" => LengthUnit.Foot,
        "meter" => LengthUnit.Metre,
        _ => null,
    };

    /// <summary>Required extensions that can be honoured: production is read; materials and triangle sets leave the shape alone.</summary>
    public static bool IsUnderstood(string ns) => ns is Core or Production or Materials or TriangleSets;
}
