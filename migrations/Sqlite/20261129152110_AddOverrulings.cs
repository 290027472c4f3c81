using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AddOverrulings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "small_part",
                table: "inspections",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            // What was inspected before keeps the answer in its measurements.
            migrationBuilder.Sql("UPDATE inspections SET small_part = 1 WHERE facts_json LIKE '%\"SmallPart\":true%';");

            migrationBuilder.CreateTable(
                name: "overrulings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    revision_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    process = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    reason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    by = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    withdrawn_by = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_overrulings", x => x.id);
                    table.ForeignKey(
                        name: "fk_overrulings_revisions_revision_id",
                        column: x => x.revision_id,
                        principalTable: "revisions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_overrulings_revision_id_process",
                table: "overrulings",
                columns: new[] { "revision_id", "process" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "overrulings");

            migrationBuilder.DropColumn(
                name: "small_part",
                table: "inspections");
        }
    }
}
