using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Shop.CleanOuts;

/// <summary>A step as it stands in its form: as it was typed, as it was noted, or as it is proposed.</summary>
public sealed record CleanOutForm(IReadOnlyDictionary<string, string> Values)
{
    public const string IdName = "id";
    public const string SeenName = "round";
    public const string LeaveOutName = "leaveOut";
    private const string Ticked = "1";
    private const int LongestQuote = 30;

    public string this[string name] => Values.GetValueOrDefault(name, "");

    public bool IsTicked(string name) => this[name] == Ticked;

    public static CleanOutForm Read(FormPost post, CleanOutStepKind kind)
    {
        ArgumentNullException.ThrowIfNull(post);
        var names = CleanOutInput.Of(kind, isSupervisor: true).Select(i => i.Name).Append(CleanOutFields.Reason);
        return new(names.Distinct(StringComparer.Ordinal).ToDictionary(n => n, n => post.Text(n).ReplaceLineEndings("\n"), StringComparer.Ordinal));
    }

    /// <summary>What was noted, to be put right; an open step with what stands ready for it.</summary>
    public static CleanOutForm Of(CleanOutPage page, CleanOutPageStep step, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(step);
        var writer = new Writer(format);
        if (step.Noted is { } noted)
        {
            writer.Write(noted, step.Kind);
        }
        else
        {
            writer.Propose(page, step.Kind);
        }

        return new(writer.Values);
    }

    /// <summary>The note, with what is no number.</summary>
    public (CleanOutNote Note, IReadOnlyList<FieldError> Faults) ToNote(CleanOutStepKind kind, bool isLeftOut, UnitSystem units)
    {
        if (isLeftOut)
        {
            return (new(Text: this[CleanOutFields.Reason], IsLeftOut: true), []);
        }

        var faults = new List<FieldError>();
        decimal? Number(string name)
        {
            var input = CleanOutInput.Of(kind, isSupervisor: true).First(i => i.Name == name);
            if (this[name].Length == 0)
            {
                return null;
            }

            if (!QuantityInput.IsAmbiguous(this[name]) && QuantityInput.TryRead(this[name], input.Quantity, units, out var value))
            {
                return value;
            }

            faults.Add(new(name, QuantityInput.ProblemOf(this[name]), Detail: this[name].Length > LongestQuote ? this[name][..LongestQuote] : this[name]));
            return null;
        }

        decimal Needed(string name)
        {
            if (this[name].Length == 0)
            {
                faults.Add(new(name, FieldProblem.Missing));
            }

            return Number(name) ?? 0;
        }

        var note = new CleanOutNote(
            Confirmed: [.. CleanOutConfirmations.Of(kind).Where(IsTicked)],
            Text: this[kind switch
            {
                CleanOutStepKind.Carrier => CleanOutFields.Carrier,
                CleanOutStepKind.Inspect => CleanOutFields.Seen,
                _ => CleanOutFields.Note,
            }]);
        note = kind switch
        {
            CleanOutStepKind.Plan => note with
            {
                Choice = new(
                    Needed(CleanOutFields.Content), Needed(CleanOutFields.Heel), Needed(CleanOutFields.CleanerPercent), Needed(CleanOutFields.CirculationHours), Whole(CleanOutFields.Rinses, Needed(CleanOutFields.Rinses), faults), Needed(CleanOutFields.RinseLitres)),
            },
            CleanOutStepKind.Cleaner => note with { CleanerLitres = Number(CleanOutFields.CleanerLitres), Hours = Number(CleanOutFields.Hours), ShortReason = this[CleanOutFields.ShortReason] },
            CleanOutStepKind.Carrier => note with { HalogensMgPerKg = Number(CleanOutFields.Halogens) },
            CleanOutStepKind.Drain => note with { Waste = Waste(Number), SludgeMm = Number(CleanOutFields.SludgeMm) },
            CleanOutStepKind.Wipe or CleanOutStepKind.Rinse => note with { Waste = Waste(Number) },
            CleanOutStepKind.Refill => note with
            {
                WaterLitres = Number(CleanOutFields.Water) ?? 0,
                Draws = [.. Enumerable.Range(0, CleanOutInput.LotRows).Select(row => new LotDrawn(Guid.TryParse(this[CleanOutFields.Lot(row)], out var lot) ? lot : null, Number(CleanOutFields.Concentrate(row)) ?? 0))],
                OverrideReason = this[CleanOutFields.Override],
            },
            _ => note,
        };
        return (note, faults);
    }

    private List<WasteAmount> Waste(Func<string, decimal?> number) =>
        [.. Enumerable.Range(0, CleanOutInput.WasteRows).Select(row => new WasteAmount(this[CleanOutFields.WasteCode(row)], number(CleanOutFields.WasteLitres(row)) ?? 0))];

    private static int Whole(string name, decimal value, List<FieldError> faults)
    {
        if (value == decimal.Truncate(value) && Math.Abs(value) <= CleanOutChecks.MaximumHours)
        {
            return (int)value;
        }

        faults.Add(new(name, FieldProblem.OutOfRange, value, 0, CleanOutChecks.MaximumRinses));
        return 0;
    }

    private sealed class Writer(ShopFormat format)
    {
        public Dictionary<string, string> Values { get; } = new(StringComparer.Ordinal);

        public void Write(CleanOutNote note, CleanOutStepKind kind)
        {
            WriteChoice(note.Choice);
            foreach (var confirmed in note.Confirmed ?? [])
            {
                Values[confirmed] = Ticked;
            }

            Litres(CleanOutFields.CleanerLitres, note.CleanerLitres);
            Number(CleanOutFields.Hours, note.Hours);
            Values[CleanOutFields.ShortReason] = note.ShortReason ?? "";
            Number(CleanOutFields.SludgeMm, note.SludgeMm, QuantityKind.Length);
            Number(CleanOutFields.Halogens, note.HalogensMgPerKg);
            Litres(CleanOutFields.Water, note.WaterLitres);
            WriteRows(note);
            Values[CleanOutFields.Override] = note.OverrideReason ?? "";
            Values[note.IsLeftOut ? CleanOutFields.Reason : kind switch
            {
                CleanOutStepKind.Carrier => CleanOutFields.Carrier,
                CleanOutStepKind.Inspect => CleanOutFields.Seen,
                _ => CleanOutFields.Note,
            }] = note.Text;
        }

        /// <summary>Doses and recipes stand ready; what was measured is typed by whoever measured it.</summary>
        public void Propose(CleanOutPage page, CleanOutStepKind kind)
        {
            var (numbers, codes) = (page.Numbers, WasteCodes.ProposedFor(kind, page.OfFluid));
            for (var row = 0; row < codes.Count; row++)
            {
                Values[CleanOutFields.WasteCode(row)] = codes[row];
            }

            switch (kind)
            {
                case CleanOutStepKind.Plan:
                    WriteChoice(page.Choice);
                    break;
                case CleanOutStepKind.Cleaner:
                    Litres(CleanOutFields.CleanerLitres, (decimal)numbers.CleanerLitres);
                    Number(CleanOutFields.Hours, (decimal)numbers.CirculationHours);
                    break;
                case CleanOutStepKind.Refill:
                    Litres(CleanOutFields.Water, (decimal)numbers.Refill.WaterLitres);
                    ProposeLots(page.Lots, (decimal)numbers.Refill.ConcentrateLitres);
                    break;
            }
        }

        // One lot that holds enough; where none does, the first two that may be used.
        private void ProposeLots(IReadOnlyList<LotChoice> lots, decimal litres)
        {
            var whole = lots.For((double)litres);
            var usable = whole is null ? lots.Where(l => !l.IsExpired && !l.IsQuarantined).Take(CleanOutInput.LotRows).ToList() : [whole];
            var rest = litres;
            for (var row = 0; row < usable.Count; row++)
            {
                var drawn = row == usable.Count - 1 ? rest : decimal.Min(rest, usable[row].RemainingLitres);
                Litres(CleanOutFields.Concentrate(row), drawn);
                Values[CleanOutFields.Lot(row)] = usable[row].Id.ToString();
                rest -= drawn;
            }

            if (usable.Count == 0)
            {
                Litres(CleanOutFields.Concentrate(0), litres);
            }
        }

        private void WriteChoice(CleanOutChoice? choice)
        {
            if (choice is null)
            {
                return;
            }

            Litres(CleanOutFields.Content, choice.ContentLitres);
            Litres(CleanOutFields.Heel, choice.HeelLitres);
            Number(CleanOutFields.CleanerPercent, choice.CleanerPercent);
            Number(CleanOutFields.CirculationHours, choice.CirculationHours);
            Number(CleanOutFields.Rinses, choice.Rinses);
            Litres(CleanOutFields.RinseLitres, choice.RinseLitres);
        }

        private void WriteRows(CleanOutNote note)
        {
            foreach (var (waste, row) in (note.Waste ?? []).Select((w, row) => (w, row)))
            {
                Litres(CleanOutFields.WasteLitres(row), waste.Litres);
                Values[CleanOutFields.WasteCode(row)] = waste.Code;
            }

            foreach (var (draw, row) in (note.Draws ?? []).Select((d, row) => (d, row)))
            {
                Litres(CleanOutFields.Concentrate(row), draw.Litres);
                Values[CleanOutFields.Lot(row)] = draw.LotId?.ToString() ?? "";
            }
        }

        private void Litres(string name, decimal? litres) => Number(name, litres, QuantityKind.Volume);

        private void Number(string name, decimal? value, QuantityKind kind = QuantityKind.Number)
        {
            if (value is { } number)
            {
                Values[name] = QuantityInput.Write(decimal.Round(number, 3, MidpointRounding.AwayFromZero), kind, format.Units, format.Culture);
            }
        }
    }
}
