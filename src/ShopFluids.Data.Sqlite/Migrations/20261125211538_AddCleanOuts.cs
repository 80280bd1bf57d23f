using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AddCleanOuts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "CleanOuts",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ChargeId = table.Column<Guid>(type: "TEXT", nullable: false),
                    BegunAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    EndedByPersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    NewChargeId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ReadingId = table.Column<Guid>(type: "TEXT", nullable: true),
                    BrokenOffReason = table.Column<string>(type: "TEXT", maxLength: 500, nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CleanOuts", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CleanOuts_Charges_ChargeId",
                        column: x => x.ChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CleanOuts_Charges_NewChargeId",
                        column: x => x.NewChargeId,
                        principalTable: "Charges",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CleanOuts_Readings_ReadingId",
                        column: x => x.ReadingId,
                        principalTable: "Readings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CleanOuts_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "CleanOutSteps",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    CleanOutId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<short>(type: "INTEGER", nullable: false),
                    DoneAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Noted = table.Column<string>(type: "TEXT", nullable: false),
                    Round = table.Column<int>(type: "INTEGER", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CleanOutSteps", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CleanOutSteps_CleanOuts_CleanOutId",
                        column: x => x.CleanOutId,
                        principalTable: "CleanOuts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_CleanOuts_NewChargeId",
                table: "CleanOuts",
                column: "NewChargeId");

            migrationBuilder.CreateIndex(
                name: "IX_CleanOuts_OneOpen",
                table: "CleanOuts",
                column: "ChargeId",
                unique: true,
                filter: "\"EndedAtUtc\" IS NULL");

            migrationBuilder.CreateIndex(
                name: "IX_CleanOuts_ReadingId",
                table: "CleanOuts",
                column: "ReadingId");

            migrationBuilder.CreateIndex(
                name: "IX_CleanOuts_SumpId_BegunAtUtc",
                table: "CleanOuts",
                columns: new[] { "SumpId", "BegunAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_CleanOutSteps_CleanOutId_Kind",
                table: "CleanOutSteps",
                columns: new[] { "CleanOutId", "Kind" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "CleanOutSteps");

            migrationBuilder.DropTable(
                name: "CleanOuts");
        }
    }
}
