using System.Globalization;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace Catalogue.Web.Features.Shared;

/// <summary>Numbers in forms, typed with a point or a comma, whatever language the machine speaks. “1,500” is one and a half.</summary>
internal sealed class NumberBinder : IModelBinder
{
    public Task BindModelAsync(ModelBindingContext bindingContext)
    {
        var sent = bindingContext.ValueProvider.GetValue(bindingContext.ModelName);
        if (sent == ValueProviderResult.None) return Task.CompletedTask;
        bindingContext.ModelState.SetModelValue(bindingContext.ModelName, sent);
        var text = sent.FirstValue?.Trim() ?? "";
        if (text.Length == 0)
        {
            bindingContext.Result = ModelBindingResult.Success(null);
        }
        else if (double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
            && double.IsFinite(number))
        {
            bindingContext.Result = ModelBindingResult.Success(number);
        }
        else
        {
            bindingContext.ModelState.TryAddModelError(bindingContext.ModelName, T($"“{(text.Length <= 30 ? text : text[..30] + "…")}” is not a number. Write it like 120 or 14.5."));
        }

        return Task.CompletedTask;
    }

    internal sealed class Provider : IModelBinderProvider
    {
        public IModelBinder? GetBinder(ModelBinderProviderContext context) => context.Metadata.ModelType == typeof(double?) ? new NumberBinder() : null;
    }
}
