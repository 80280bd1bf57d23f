using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Postgres.Migrations
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
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "FluidKeepYears",
                table: "Sites",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "AgainstLabelReason",
                table: "Doses",
                type: "character varying(500)",
                maxLength: 500,
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "EndedByDoseId",
                table: "CareTasks",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "DoseStrikes",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    DoseId = table.Column<Guid>(type: "uuid", nullable: false),
                    Reason = table.Column<string>(type: "character varying(500)", maxLength: 500, nullable: false),
                    StruckAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    PersonId = table.Column<Guid>(type: "uuid", nullable: true),
                    Version = table.Column<long>(type: "bigint", nullable: false)
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
