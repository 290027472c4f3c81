using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Catalogue.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class AddProcessRates : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "currency",
                table: "ranges",
                type: "TEXT",
                maxLength: 3,
                nullable: false,
                defaultValue: "EUR");

            migrationBuilder.CreateTable(
                name: "process_rates",
                columns: table => new
                {
                    process_code = table.Column<string>(type: "TEXT", maxLength: 30, nullable: false),
                    key = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    value = table.Column<double>(type: "REAL", nullable: false),
                    unit = table.Column<string>(type: "TEXT", maxLength: 10, nullable: false),
                    spread_percent = table.Column<double>(type: "REAL", nullable: false),
                    origin = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_process_rates", x => new { x.process_code, x.key });
                    table.ForeignKey(
                        name: "fk_process_rates_processes_process_code",
                        column: x => x.process_code,
                        principalTable: "processes",
                        principalColumn: "code",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "process_rates");

            migrationBuilder.DropColumn(
                name: "currency",
                table: "ranges");
        }
    }
}
