using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFluids.Data.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class KeepWhatStepsNeedAndWhyTestsAreDue : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "ShiftEnds",
                table: "Sites",
                type: "TEXT",
                maxLength: 60,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Why",
                table: "CareTasks",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "AcceptedRiskPercent",
                table: "CareSteps",
                type: "TEXT",
                precision: 18,
                scale: 6,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Needs",
                table: "CareSteps",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "Shift",
                table: "CareSteps",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Template",
                table: "CareSteps",
                type: "TEXT",
                maxLength: 60,
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "ShiftEnds",
                table: "Sites");

            migrationBuilder.DropColumn(
                name: "Why",
                table: "CareTasks");

            migrationBuilder.DropColumn(
                name: "AcceptedRiskPercent",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "Needs",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "Shift",
                table: "CareSteps");

            migrationBuilder.DropColumn(
                name: "Template",
                table: "CareSteps");
        }
    }
}
