namespace ShopFluids.Web.Components.Shared.Loading;

/// <summary>What a page knows of the data it shows. <see cref="LoadView{T}"/> draws every state, so that no page forgets one.</summary>
public abstract record Load<T>
{
    private Load()
    {
    }

    public sealed record Loading : Load<T>;

    /// <param name="Message">What was not loaded, as a sentence.</param>
    public sealed record Failed(string Message) : Load<T>;

    public sealed record Loaded(T Value) : Load<T>;
}
