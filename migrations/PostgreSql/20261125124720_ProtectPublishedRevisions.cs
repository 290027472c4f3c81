using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.PostgreSql
{
    /// <inheritdoc />
    public partial class ProtectPublishedRevisions : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""
                CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
                BEGIN
                  RAISE EXCEPTION '% is immutable once published', TG_TABLE_NAME USING ERRCODE = 'restrict_violation';
                END;
                $$;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER revisions_are_immutable BEFORE UPDATE ON revisions FOR EACH ROW
                WHEN (NEW.id IS DISTINCT FROM OLD.id OR NEW.variant_id IS DISTINCT FROM OLD.variant_id OR NEW.number IS DISTINCT FROM OLD.number
                  OR NEW.sha256 IS DISTINCT FROM OLD.sha256 OR NEW.bytes IS DISTINCT FROM OLD.bytes OR NEW.file_name IS DISTINCT FROM OLD.file_name
                  OR NEW.stated_unit IS DISTINCT FROM OLD.stated_unit OR NEW.note IS DISTINCT FROM OLD.note
                  OR NEW.uploaded_at IS DISTINCT FROM OLD.uploaded_at OR NEW.inspection_id IS DISTINCT FROM OLD.inspection_id
                  OR (OLD.published_at IS NOT NULL AND (NEW.published_at IS DISTINCT FROM OLD.published_at OR NEW.discarded_at IS NOT NULL)))
                EXECUTE FUNCTION refuse_change();
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER published_revisions_stay BEFORE DELETE ON revisions FOR EACH ROW
                WHEN (OLD.published_at IS NOT NULL) EXECUTE FUNCTION refuse_change();
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER editions_are_immutable BEFORE UPDATE OR DELETE ON edition_entries FOR EACH ROW
                EXECUTE FUNCTION refuse_change();
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP TRIGGER editions_are_immutable ON edition_entries;");
            migrationBuilder.Sql("DROP TRIGGER published_revisions_stay ON revisions;");
            migrationBuilder.Sql("DROP TRIGGER revisions_are_immutable ON revisions;");
            migrationBuilder.Sql("DROP FUNCTION refuse_change();");
        }
    }
}
