using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AddStationsAndSkippedStops : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "LockMinutes",
                table: "Sites",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "StationId",
                table: "RecordEntries",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "StationName",
                table: "RecordEntries",
                type: "TEXT",
                maxLength: 60,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "PinHash",
                table: "AspNetUsers",
                type: "TEXT",
                maxLength: 200,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "PinBackoffs",
                columns: table => new
                {
                    Subject = table.Column<string>(type: "TEXT", maxLength: 80, nullable: false),
                    WrongTries = table.Column<int>(type: "INTEGER", nullable: false),
                    LastAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    NextAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PinBackoffs", x => x.Subject);
                });

            migrationBuilder.CreateTable(
                name: "SkippedStops",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    SumpId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Reason = table.Column<short>(type: "INTEGER", nullable: false),
                    Words = table.Column<string>(type: "TEXT", maxLength: 200, nullable: false),
                    SkippedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SkippedStops", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SkippedStops_Sumps_SumpId",
                        column: x => x.SumpId,
                        principalTable: "Sumps",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Stations",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 60, nullable: false),
                    Place = table.Column<string>(type: "TEXT", maxLength: 120, nullable: false),
                    Theme = table.Column<string>(type: "TEXT", maxLength: 10, nullable: false),
                    MadeAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EnrolledAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    RevokedAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Version = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Stations", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "StationContacts",
                columns: table => new
                {
                    StationId = table.Column<Guid>(type: "TEXT", nullable: false),
                    SeenAtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Unsent = table.Column<int>(type: "INTEGER", nullable: false),
                    OldestUnsentAtUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ClockAheadMs = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StationContacts", x => x.StationId);
                    table.ForeignKey(
                        name: "FK_StationContacts_Stations_StationId",
                        column: x => x.StationId,
                        principalTable: "Stations",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "StationKeys",
                columns: table => new
                {
                    StationId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CodeHash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: true),
                    CodeUntilUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    CodeById = table.Column<Guid>(type: "TEXT", nullable: true),
                    CodeByName = table.Column<string>(type: "TEXT", maxLength: 120, nullable: true),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 64, nullable: true),
                    SessionId = table.Column<string>(type: "TEXT", maxLength: 64, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StationKeys", x => x.StationId);
                    table.ForeignKey(
                        name: "FK_StationKeys_Stations_StationId",
                        column: x => x.StationId,
                        principalTable: "Stations",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_SkippedStops_Day",
                table: "SkippedStops",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_SkippedStops_SumpId_SkippedAtUtc",
                table: "SkippedStops",
                columns: new[] { "SumpId", "SkippedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_StationKeys_CodeHash",
                table: "StationKeys",
                column: "CodeHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_StationKeys_Hash",
                table: "StationKeys",
                column: "Hash",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "PinBackoffs");

            migrationBuilder.DropTable(
                name: "SkippedStops");

            migrationBuilder.DropTable(
                name: "StationContacts");

            migrationBuilder.DropTable(
                name: "StationKeys");

            migrationBuilder.DropTable(
                name: "Stations");

            migrationBuilder.DropColumn(
                name: "LockMinutes",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "StationId",
                table: "RecordEntries");

            migrationBuilder.DropColumn(
                name: "StationName",
                table: "RecordEntries");

            migrationBuilder.DropColumn(
                name: "PinHash",
                table: "AspNetUsers");
        }
    }
}
