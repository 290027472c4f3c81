using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AddMeshComparisons : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "mesh_comparisons",
                columns: table => new
                {
                    before_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    after_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    made_by_version = table.Column<int>(type: "INTEGER", nullable: false),
                    error_message = table.Column<string>(type: "TEXT", maxLength: 1000, nullable: false),
                    queued_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    finished_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    change_json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_mesh_comparisons", x => new { x.before_id, x.after_id });
                    table.ForeignKey(
                        name: "fk_mesh_comparisons_inspections_after_id",
                        column: x => x.after_id,
                        principalTable: "inspections",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_mesh_comparisons_inspections_before_id",
                        column: x => x.before_id,
                        principalTable: "inspections",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_mesh_comparisons_after_id",
                table: "mesh_comparisons",
                column: "after_id");

            migrationBuilder.CreateIndex(
                name: "ix_mesh_comparisons_state",
                table: "mesh_comparisons",
                column: "state");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "mesh_comparisons");
        }
    }
}
