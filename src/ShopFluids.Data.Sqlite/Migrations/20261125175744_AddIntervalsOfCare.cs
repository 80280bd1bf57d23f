using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class AddIntervalsOfCare : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<decimal>(
                name: "IntervalDays",
                table: "CareTasks",
                type: "TEXT",
                precision: 18,
                scale: 6,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "CeilingDays",
                table: "CareSteps",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "EventParameter",
                table: "CareSteps",
                type: "TEXT",
                maxLength: 60,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "FloorDays",
                table: "CareSteps",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "IntervalHours",
                table: "CareSteps",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "IntervalMonths",
                table: "CareSteps",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "WantedFind",
                table: "CareSteps",
                type: "TEXT",
                precision: 18,
                scale: 6,
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "IntervalDays",
                table: "CareTasks");

            migrationBuilder.DropColumn(
                name: "CeilingDays",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "EventParameter",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "FloorDays",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "IntervalHours",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "IntervalMonths",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "WantedFind",
                table: "CareSteps");
        }
    }
}
