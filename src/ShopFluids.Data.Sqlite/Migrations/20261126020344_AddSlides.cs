using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AddSlides : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Slides",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Parameter = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Incubation = table.Column<short>(type: "INTEGER", nullable: false),
                    DippedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    StartedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    StartedByPersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ReadFromUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ReadUntilUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndedHow = table.Column<short>(type: "INTEGER", nullable: true),
                    EndedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    EndedByPersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    EndReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Slides", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Slides_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Slides_Readings_ReadingId",
                        column: x => x.ReadingId,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Slides_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Slides_ChargeId",
                table: "Slides",
                column: "ChargeId");

            migrationBuilder.CreateIndex(
                name: "IX_Slides_EndedAtUtc",
                table: "Slides",
                column: "EndedAtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Slides_ReadingId",
                table: "Slides",
                column: "ReadingId");

            migrationBuilder.CreateIndex(
                name: "IX_Slides_SumpId_DippedAtUtc",
                table: "Slides",
                columns: new[] { "SumpId", "DippedAtUtc" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Slides");
        }
    }
}
