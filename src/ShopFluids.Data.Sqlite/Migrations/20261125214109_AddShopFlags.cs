using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AddShopFlags : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "CheckEveryDays",
                table: "Instruments",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "OpenedLifeDays",
                table: "Fluids",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "EscalatedAtUtc",
                table: "Flags",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "ShopFlags",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Rule = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    RuleVersion = table.Column<int>(type: "INTEGER", nullable: false),
                    Aspect = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    SubjectId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Severity = table.Column<short>(type: "INTEGER", nullable: false),
                    Numbers = table.Column<string>(type: "TEXT", nullable: false),
                    RaisedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    DueAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EscalatedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    AnsweredAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    AnsweredByPersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Answer = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    GoneAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShopFlags", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_ShopFlags_OneThere",
                table: "ShopFlags",
                columns: new[] { "Rule", "Aspect", "SubjectId" },
                unique: true,
                filter: "\"GoneAtUtc\" IS NULL");

            migrationBuilder.CreateIndex(
                name: "IX_ShopFlags_SubjectId_RaisedAtUtc",
                table: "ShopFlags",
                columns: new[] { "SubjectId", "RaisedAtUtc" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "ShopFlags");

            migrationBuilder.DropColumn(
                name: "CheckEveryDays",
                table: "Instruments");

            migrationBuilder.DropColumn(
                name: "OpenedLifeDays",
                table: "Fluids");

            migrationBuilder.DropColumn(
                name: "EscalatedAtUtc",
                table: "Flags");
        }
    }
}
