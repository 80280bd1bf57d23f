using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Forms;

/// <summary>A field that stands on the form.</summary>
/// <param name="Render">Draws it anew: a field whose parameters are the same would not notice its fault.</param>
public sealed record FormField(string Label, Func<ValueTask> FocusAsync, Action Render);

/// <summary>What a form and its fields tell each other: faults down, changes up.</summary>
public sealed class FormState(string name, Action changed)
{
    private readonly Dictionary<string, FormField> _fields = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _faults = new(StringComparer.Ordinal);
    private DeskWords? _words;

    public DeskWords Words
    {
        get => _words ?? throw new InvalidOperationException("The form is shown before its words are known.");
        set => _words = value;
    }

    public ShopFormat Format => Words.Format;

    /// <summary>Something was typed that is not saved.</summary>
    public bool IsDirty { get; private set; }

    /// <summary>By field, in the order in which they were found; the empty name is the form itself.</summary>
    public IReadOnlyDictionary<string, string> Faults => _faults;

    /// <summary>Two forms may stand on one page, so the form's name is part of a field's id.</summary>
    public string IdOf(string field) => $"{name}-{field.Replace('.', '-')}";

    public string? Fault(string field) => _faults.GetValueOrDefault(field);

    public FormField? Field(string field) => _fields.GetValueOrDefault(field);

    public void Register(string field, FormField shown) => _fields[field] = shown;

    /// <summary>Not where another field of that name has taken its place meanwhile.</summary>
    public void Unregister(string field, FormField shown)
    {
        if (_fields.TryGetValue(field, out var known) && known == shown)
        {
            _fields.Remove(field);
        }
    }

    public void Touch(string field)
    {
        IsDirty = true;
        _faults.Remove(field);
        changed();
    }

    public void Clean()
    {
        IsDirty = false;
        _faults.Clear();
    }

    public void ClearFaults() => _faults.Clear();

    /// <summary>Shows every field with the faults as they are now.</summary>
    public void Show()
    {
        foreach (var field in _fields.Values)
        {
            field.Render();
        }
    }

    /// <summary>The first fault of a field is shown, under the label that stands beside it.</summary>
    public void Refuse(string field, FieldError error) =>
        _faults.TryAdd(field, Words.Sentences.Field(_fields.TryGetValue(field, out var shown) ? error with { Field = shown.Label } : error));

    public void Refuse(string field, string sentence) => _faults.TryAdd(field, sentence);
}
