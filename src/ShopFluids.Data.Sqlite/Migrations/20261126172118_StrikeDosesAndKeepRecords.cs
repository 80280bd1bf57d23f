using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class StrikeDosesAndKeepRecords : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "ExposureKeepYears",
                table: "Sites",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "FluidKeepYears",
                table: "Sites",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "AgainstLabelReason",
                table: "Doses",
                type: "TEXT",
                maxLength: 500,
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "EndedByDoseId",
                table: "CareTasks",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "DoseStrikes",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    DoseId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    StruckAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DoseStrikes", x => x.Id);
                    table.ForeignKey(
                        name: "FK_DoseStrikes_Doses_DoseId",
                        column: x => x.DoseId,
                        principalTable: "Doses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_CareTasks_EndedByDoseId",
                table: "CareTasks",
                column: "EndedByDoseId");

            migrationBuilder.CreateIndex(
                name: "IX_DoseStrikes_DoseId",
                table: "DoseStrikes",
                column: "DoseId",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "DoseStrikes");

            migrationBuilder.DropIndex(
                name: "IX_CareTasks_EndedByDoseId",
                table: "CareTasks");

            migrationBuilder.DropColumn(
                name: "ExposureKeepYears",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "FluidKeepYears",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "AgainstLabelReason",
                table: "Doses");

            migrationBuilder.DropColumn(
                name: "EndedByDoseId",
                table: "CareTasks");
        }
    }
}
