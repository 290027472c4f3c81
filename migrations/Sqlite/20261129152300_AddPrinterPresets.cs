using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AddPrinterPresets : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "printer_presets",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    hint = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    process = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    is_round = table.Column<bool>(type: "INTEGER", nullable: false),
                    width_mm = table.Column<double>(type: "REAL", nullable: false),
                    depth_mm = table.Column<double>(type: "REAL", nullable: false),
                    height_mm = table.Column<double>(type: "REAL", nullable: false),
                    margin_mm = table.Column<double>(type: "REAL", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_printer_presets", x => x.id);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "printer_presets");
        }
    }
}
