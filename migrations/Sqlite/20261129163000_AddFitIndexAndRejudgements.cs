using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AddFitIndexAndRejudgements : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "next_origin",
                table: "process_limits",
                type: "TEXT",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "next_value",
                table: "process_limits",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "judgements",
                table: "figures",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.CreateTable(
                name: "inspection_facts",
                columns: table => new
                {
                    inspection_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    check = table.Column<string>(type: "TEXT", maxLength: 20, nullable: false),
                    packed = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_inspection_facts", x => new { x.inspection_id, x.check });
                    table.ForeignKey(
                        name: "fk_inspection_facts_inspections_inspection_id",
                        column: x => x.inspection_id,
                        principalTable: "inspections",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "inspection_outlines",
                columns: table => new
                {
                    inspection_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    outline = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_inspection_outlines", x => x.inspection_id);
                    table.ForeignKey(
                        name: "fk_inspection_outlines_inspections_inspection_id",
                        column: x => x.inspection_id,
                        principalTable: "inspections",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "next_verdicts",
                columns: table => new
                {
                    revision_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    process = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    verdict = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    findings_json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_next_verdicts", x => new { x.revision_id, x.process });
                    table.ForeignKey(
                        name: "fk_next_verdicts_revisions_revision_id",
                        column: x => x.revision_id,
                        principalTable: "revisions",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "rejudgements",
                columns: table => new
                {
                    id = table.Column<int>(type: "INTEGER", nullable: false),
                    asked = table.Column<long>(type: "INTEGER", nullable: false),
                    working = table.Column<long>(type: "INTEGER", nullable: false),
                    done = table.Column<long>(type: "INTEGER", nullable: false),
                    last_revision = table.Column<Guid>(type: "TEXT", nullable: false),
                    judged = table.Column<int>(type: "INTEGER", nullable: false),
                    total = table.Column<int>(type: "INTEGER", nullable: false),
                    started_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    switched_at = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_rejudgements", x => x.id);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "inspection_facts");

            migrationBuilder.DropTable(
                name: "inspection_outlines");

            migrationBuilder.DropTable(
                name: "next_verdicts");

            migrationBuilder.DropTable(
                name: "rejudgements");

            migrationBuilder.DropColumn(
                name: "next_origin",
                table: "process_limits");

            migrationBuilder.DropColumn(
                name: "next_value",
                table: "process_limits");

            migrationBuilder.DropColumn(
                name: "judgements",
                table: "figures");
        }
    }
}
