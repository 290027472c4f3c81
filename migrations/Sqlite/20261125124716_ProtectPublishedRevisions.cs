using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class ProtectPublishedRevisions : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                CREATE TRIGGER revisions_are_immutable BEFORE UPDATE ON revisions
                WHEN NEW.id IS NOT OLD.id OR NEW.variant_id IS NOT OLD.variant_id OR NEW.number IS NOT OLD.number
                  OR NEW.sha256 IS NOT OLD.sha256 OR NEW.bytes IS NOT OLD.bytes OR NEW.file_name IS NOT OLD.file_name
                  OR NEW.stated_unit IS NOT OLD.stated_unit OR NEW.note IS NOT OLD.note OR NEW.uploaded_at IS NOT OLD.uploaded_at
                  OR NEW.inspection_id IS NOT OLD.inspection_id
                  OR (OLD.published_at IS NOT NULL AND (NEW.published_at IS NOT OLD.published_at OR NEW.discarded_at IS NOT NULL))
                BEGIN
                  SELECT RAISE(ABORT, 'a revision is immutable');
                END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER published_revisions_stay BEFORE DELETE ON revisions
                WHEN OLD.published_at IS NOT NULL
                BEGIN
                  SELECT RAISE(ABORT, 'a published revision is immutable');
                END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER editions_are_immutable BEFORE UPDATE ON edition_entries
                BEGIN
                  SELECT RAISE(ABORT, 'an edition is immutable');
                END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER editions_stay BEFORE DELETE ON edition_entries
                BEGIN
                  SELECT RAISE(ABORT, 'an edition is immutable');
                END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER editions_stay;");
            migrationBuilder.Sql("DROP TRIGGER editions_are_immutable;");
            migrationBuilder.Sql("DROP TRIGGER published_revisions_stay;");
            migrationBuilder.Sql("DROP TRIGGER revisions_are_immutable;");
        }
    }
}
