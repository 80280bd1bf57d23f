using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Record;

/// <summary>Every change with who, when, where and what: the audit trail. What is looked for stands in the address.</summary>
public sealed partial class RecordPage
{
    [SupplyParameterFromQuery(Name = RecordAddress.FromField)]
    public string? From { get; set; }

    [SupplyParameterFromQuery(Name = RecordAddress.ToField)]
    public string? To { get; set; }

    [SupplyParameterFromQuery(Name = RecordAddress.WhoField)]
    public string? Who { get; set; }

    [SupplyParameterFromQuery(Name = RecordAddress.WhatField)]
    public string? What { get; set; }

    [SupplyParameterFromQuery(Name = RecordAddress.AboutField)]
    public string? About { get; set; }

    [SupplyParameterFromQuery(Name = RecordAddress.BeforeField)]
    public long? Before { get; set; }

    [Inject]
    public required TrailQuery Query { get; init; }

    protected override string FailedText => Texts.Record_Failed;

    protected override async Task<RecordView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var filter = RecordAddress.Read(From, To, Who, What, About, Before);
        return new(await Query.RunAsync(filter, cancellationToken), filter, words);
    }

    /// <summary>Another search begins at its newest entries.</summary>
    private void Look(string field, ChangeEventArgs e) =>
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameters(new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            [field] = string.IsNullOrWhiteSpace(e.Value as string) ? null : e.Value,
            [RecordAddress.BeforeField] = null,
        }));
}
