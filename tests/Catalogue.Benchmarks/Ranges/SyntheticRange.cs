using System.Globalization;
using System.Text.Json;
using Catalogue.Data;
using Catalogue.Data.Judging;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Benchmarks.Ranges;

/// <summary>
/// A range as large as wished for, in a real database with the real schema: published figures of ten parts, each part with a mesh of its own size, profile and hull,
/// declared for some processes and judged on all. The same for the same seed.
/// </summary>
internal static class SyntheticRange
{
    public const int PartsPerFigure = 10;

    public static readonly DateTime Day = new(2026, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    private const int Batch = 100;
    private const int Shapes = 20;

    private static readonly string[] Whos = ["lamp", "drum", "kettle", "ribbon", "lantern", "barrel", "whistle", "button", "feather", "ladder", "needle", "marble", "copper", "thistle", "saddle", "candle"];
    private static readonly string[] Whats = ["juggler", "rider", "keeper", "dancer", "tuner", "walker", "mender", "caller", "painter", "reader", "weaver", "sweeper"];
    private static readonly string[] Places = ["pier", "market", "attic", "orchard", "mill", "harbour", "wagon", "cellar", "meadow", "bridge"];
    private static readonly string[] PartNames = ["Trunk", "Head", "Left arm", "Right arm", "Left leg", "Right leg", "Hat", "Base", "Satchel", "Collar"];
    private static readonly string[][] MadeFor =
    [
        ["MEX-rigid", "VPP-rigid"], ["MEX-rigid", "VPP-rigid", "VPP-tough", "PBF-rigid"], ["MEX-rigid"], ["VPP-rigid", "VPP-tough"], ["MEX-rigid", "VPP-rigid", "VPP-flexible", "MEX-flexible"],
    ];

    private static readonly string[] Syllables = ["bar", "cel", "dom", "fen", "gil", "hom", "jas", "kor", "lin", "mar", "nel", "pim", "quo", "ros", "sil", "tam", "vol", "wen", "yor", "zan", "bru", "cra"];

    /// <summary>A name of its own for each of ten thousand figures, so that the range has as many words as a real one.</summary>
    private static string NameOf(int number)
    {
        var n = Syllables.Length;
        var name = Syllables[number % n] + Syllables[number / n % n] + Syllables[number / n / n % n];
        return char.ToUpperInvariant(name[0]) + name[1..];
    }

    /// <summary>Brings an empty database up to date and fills it.</summary>
    public static async Task FillAsync(DatabaseChoice choice, int figures, int seed, CancellationToken cancellation = default)
    {
        await Schema.ApplyAsync(choice, cancellation);
        await using var db = choice.Open();
        var processes = await db.Processes.AsNoTracking().Include(p => p.Limits).OrderBy(p => p.Position).ToListAsync(cancellation);
        var shapes = SampleShape.Make(Shapes, seed, processes);
        var random = new Random(seed);
        await db.Database.OpenConnectionAsync(cancellation);
        var connection = db.Database.GetDbConnection();
        if (!choice.IsPostgreSql) await db.Database.ExecuteSqlRawAsync("PRAGMA synchronous = OFF; PRAGMA foreign_keys = OFF; PRAGMA cache_size = -200000;", cancellation);
        var rows = new Tables(db);
        for (var first = 0; first < figures; first += Batch)
        {
            for (var i = first; i < Math.Min(figures, first + Batch); i++) rows.AddFigure(i, random, shapes, processes);
            await using var transaction = await connection.BeginTransactionAsync(cancellation);
            foreach (var table in rows.InOrder) await table.WriteAsync(connection, transaction);
            await transaction.CommitAsync(cancellation);
        }

        await db.CountRangeUpAsync(limits: true, cancellation);
        if (choice.IsPostgreSql) await db.Database.ExecuteSqlRawAsync("ANALYZE", cancellation);
        else await db.Database.ExecuteSqlRawAsync("PRAGMA wal_checkpoint(TRUNCATE); ANALYZE; PRAGMA synchronous = NORMAL;", cancellation);
    }

    private sealed class Tables(CatalogueDb db)
    {
        private readonly BulkTable _figures = new(db, typeof(Figure));
        private readonly BulkTable _choices = new(db, typeof(Choice));
        private readonly BulkTable _parts = new(db, typeof(Part));
        private readonly BulkTable _variants = new(db, typeof(Variant));
        private readonly BulkTable _declarations = new(db, typeof(Declaration));
        private readonly BulkTable _inspections = new(db, typeof(MeshInspection));
        private readonly BulkTable _outlines = new(db, typeof(InspectionOutline));
        private readonly BulkTable _checkFacts = new(db, typeof(InspectionFacts));
        private readonly BulkTable _revisions = new(db, typeof(Revision));
        private readonly BulkTable _verdicts = new(db, typeof(RevisionVerdict));
        private readonly BulkTable _editions = new(db, typeof(Edition));
        private readonly BulkTable _entries = new(db, typeof(EditionEntry));
        private readonly BulkTable _hardware = new(db, typeof(HardwareNeed));
        private readonly BulkTable _joints = new(db, typeof(Joint));
        private int _count;

        public IEnumerable<BulkTable> InOrder =>
            [_figures, _choices, _parts, _variants, _declarations, _inspections, _outlines, _checkFacts, _revisions, _verdicts, _editions, _entries, _hardware, _joints];

        public void AddFigure(int number, Random random, IReadOnlyList<SampleShape> shapes, IReadOnlyList<Process> processes)
        {
            var (figure, edition) = (NextId(), NextId());
            var words = $"{Pick(Whos, random)} {Pick(Whats, random)}";
            var at = Day.AddMinutes(number);
            _figures.Add(
                ("Id", figure), ("Slug", string.Create(CultureInfo.InvariantCulture, $"{words.Replace(' ', '-')}-{number}")),
                ("Title", string.Create(CultureInfo.InvariantCulture, $"{NameOf(number)} the {words} {number}")),
                ("Summary", $"A {words} from the {Pick(Places, random)}, with a {Pick(Whos, random)} to hold and a {Pick(Places, random)} to stand on."),
                ("Tags", new[] { Pick(Places, random), Pick(Whats, random) }.Distinct().ToArray()),
                ("HeightMm", (double)random.Next(90, 210)), ("Licence", "CC-BY-4.0"), ("Status", FigureStatus.Published), ("CurrentEditionId", edition),
                ("CreatedAt", at), ("ChangedAt", at), ("Version", 2));
            _editions.Add(("Id", edition), ("FigureId", figure), ("Number", 1), ("PublishedAt", at));
            _hardware.Add(("Id", NextId()), ("FigureId", figure), ("Name", $"Rod of {Pick(Whos, random)} wire"), ("Quantity", 2));

            // One printing technique and one build per figure, as designers have it; every fifth figure has a part of its own for another process.
            var made = Pick(MadeFor, random);
            var choice = number % 5 == 0 ? NextId() : (Guid?)null;
            var ids = Enumerable.Range(0, PartsPerFigure).Select(_ => NextId()).ToArray();
            if (choice is not null) _choices.Add(("Id", choice), ("FigureId", figure), ("Slug", "front"), ("Name", "Front"), ("DefaultPartId", ids[6]));
            for (var p = 0; p < PartsPerFigure; p++)
            {
                var role = p >= 8 ? PartRole.Optional : choice is not null && p is 6 or 7 ? PartRole.ChoiceMember : PartRole.Required;
                if (choice is null && p is 6 or 7) role = PartRole.Required;
                _parts.Add(
                    ("Id", ids[p]), ("FigureId", figure), ("Slug", PartNames[p].ToLowerInvariant().Replace(' ', '-')), ("Name", PartNames[p]), ("Quantity", 1), ("Role", role),
                    ("Position", p + 1), ("ChoiceId", role == PartRole.ChoiceMember ? choice : null), ("AssembledPoses", new List<Pose>()));
                AddRevision(ids[p], edition, p == 9 && number % 5 == 1 ? ["MEX-rigid"] : made, at, random, Pick(shapes, random), processes);
            }

            for (var j = 2; j < 6; j++)
            {
                _joints.Add(
                    ("Id", NextId()), ("FigureId", figure), ("FirstPartId", ids[0]), ("SecondPartId", ids[j]), ("Kind", JointKind.PopInBall), ("Name", "Socket"),
                    ("InnerDiameterMm", 8.0), ("OuterDiameterMm", 8.2), ("MouthDiameterMm", 7.9), ("Processes", j == 2 ? new[] { "MEX-rigid" } : []));
            }
        }

        private void AddRevision(
            Guid part, Guid edition, string[] made, DateTime at, Random random, SampleShape shape, IReadOnlyList<Process> processes)
        {
            var (variant, revision, inspection) = (NextId(), NextId(), NextId());
            var scale = 0.45 + (0.75 * random.NextDouble());
            var (facts, profile) = (shape.Facts, shape.Profile(scale));
            var sha = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(inspection.ToByteArray()));
            _variants.Add(("Id", variant), ("PartId", part), ("Slug", "all"), ("Name", "All"));
            foreach (var process in made) _declarations.Add(("VariantId", variant), ("Process", process));
            _inspections.Add(
                ("Id", inspection), ("Sha256", sha), ("UnitKey", "none"), ("State", InspectionState.Done), ("CheckVersion", MeshInspector.CheckVersion), ("ProgressPercent", 100),
                ("QueuedAt", at), ("StartedAt", at), ("FinishedAt", at), ("Triangles", facts.Triangles), ("SizeXMm", scale * facts.Size.X), ("SizeYMm", scale * facts.Size.Y),
                ("SizeZMm", scale * facts.Size.Z), ("VolumeMm3", scale * scale * scale * facts.VolumeMm3), ("AreaMm2", scale * scale * facts.AreaMm2), ("FitProfile", profile),
                ("Hull", shape.Hull(scale)), ("FactsJson", shape.FactsJson), ("ReportJson", "{}"));
            _outlines.Add(("InspectionId", inspection), ("Outline", FitOutline.Of(FitProfile.FromBytes(profile))));
            foreach (var (check, packed) in shape.CheckFacts) _checkFacts.Add(("InspectionId", inspection), ("Check", check), ("Packed", packed));
            _revisions.Add(
                ("Id", revision), ("VariantId", variant), ("Number", 1), ("Sha256", sha), ("Bytes", 1000L), ("FileName", "part.stl"), ("InspectionId", inspection), ("UploadedAt", at),
                ("PublishedAt", at));
            _entries.Add(("EditionId", edition), ("VariantId", variant), ("PartId", part), ("RevisionId", revision));
            foreach (var process in processes)
            {
                var judgement = shape.Judgements[process.Code];
                _verdicts.Add(
                    ("RevisionId", revision), ("Process", process.Code), ("Verdict", judgement.Verdict), ("FindingsJson", JsonSerializer.Serialize(judgement.Findings)), ("JudgedAt", at));
            }
        }

        /// <summary>Ascending, as those of real figures are.</summary>
        private Guid NextId()
        {
            var number = ++_count;
            return new(0x019B0000 + (number >> 16), (short)number, 0x7000, 0x80, 0, 0, 0, 0, 0, 0, 1);
        }

        private static T Pick<T>(IReadOnlyList<T> among, Random random) => among[random.Next(among.Count)];
    }
}
